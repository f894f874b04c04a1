#include <algorithm>

#include <ohmwright/appliance/shown_symptoms.hpp>
#include <ohmwright/component/symptom.hpp>
#include <ohmwright/course/drawn_looks.hpp>
#include <ohmwright/locate/signs.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

/// One of `count` by a share of [0…1).
std::size_t picked(double share, std::size_t count) {
  return static_cast<std::size_t>(share * static_cast<double>(count));
}

std::string sentence_of_owner(const std::string& symptom, const Sentences& say) {
  if (symptom.empty())
    return say(
        OHMWRIGHT_TEXT("It does not work as it should, says who owns it. Find out what is wrong, if anything is."));
  return say(OHMWRIGHT_TEXT("Who owns it says: {symptom}. Find out what is wrong, if anything is."),
             {{"symptom", symptom}});
}

}  // namespace

std::vector<std::string> symptoms_to_look_at(const Appliance& appliance) {
  std::vector<std::string> all = shown_symptoms(appliance);
  std::erase_if(all, [](const std::string& id) {
    const Symptom* known = symptom_named(id);
    return known != nullptr && known->of == SymptomOf::sealed_system;
  });
  return all;
}

void draw_looks(const locate::FaultList& faults, const locate::Candidate& truth, DrawStream& draws,
                std::span<Look> looks) {
  for (Look& look : looks) {
    locate::Signs sign;
    sign.symptoms.push_back({look.id, true});
    const double shows = locate::likelihood_of_signs(faults, truth, sign, {});
    const double share = draws.uniform();
    look.seen = share < shows;
  }
  const double which = draws.uniform();  // drawn whether it is needed or not: what follows is the same
  const bool shows_itself = std::any_of(looks.begin(), looks.end(), [](const Look& look) { return look.seen; });
  if (!looks.empty() && (truth.faults.empty() || !shows_itself)) looks[picked(which, looks.size())].seen = true;
}

bool are_told_by_looks(Reasoning& reasoning, std::span<const Look> looks, std::span<const std::size_t> parts) {
  locate::Signs signs;
  for (const Look& look : looks) signs.symptoms.push_back({look.id, look.seen});
  const double after_looking = reasoning.probability_of(reasoning.after({}, signs), parts);
  return after_looking > most_told_by_looks && after_looking > reasoning.probability_of(reasoning.after({}, {}), parts);
}

std::string drawn_complaint(std::span<const Look> looks, DrawStream& draws) {
  const Sentences say{UnitPreferences{}};
  std::vector<std::string> seen;
  std::size_t longest = sentence_of_owner({}, say).size();
  for (const Look& look : looks) {
    if (look.seen) seen.push_back(look.title);
    longest = std::max(longest, sentence_of_owner(look.title, say).size());
  }
  const double which = draws.uniform();
  std::string complaint = sentence_of_owner(seen.empty() ? std::string() : seen[picked(which, seen.size())], say);
  complaint.resize(longest, ' ');
  return complaint;
}

}  // namespace ohmwright::course
