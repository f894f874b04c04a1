#include <algorithm>
#include <array>
#include <string_view>

#include <ohmwright/appliance/shown_symptoms.hpp>
#include <ohmwright/component/symptom.hpp>
#include <ohmwright/course/drawn_looks.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/locate/signs.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

/// One of `count` by a share of [0…1).
std::size_t picked(double share, std::size_t count) {
  return static_cast<std::size_t>(share * static_cast<double>(count));
}

/// What may have another reason on that day than a fault: how warm the room is, how it is used, who looked. All else is
/// there where a fault brings it about and nowhere else: on an appliance that works nobody finds that nothing works.
bool may_mislead(const std::string& symptom) {
  constexpr std::array all{std::string_view("frost-whole-coil"),   std::string_view("frost-far-end"),
                           std::string_view("warm-cabinet"),       std::string_view("warm-food-after-defrost"),
                           std::string_view("long-defrost"),       std::string_view("short-defrost"),
                           std::string_view("little-heat"),        std::string_view("compressor-never-stops"),
                           std::string_view("little-air"),         std::string_view("noise"),
                           std::string_view("hum-or-smell"),       std::string_view("water-on-floor"),
                           std::string_view("comes-and-goes"),     std::string_view("fault-since-repair"),
                           std::string_view("door-does-not-close")};
  return std::find(all.begin(), all.end(), symptom) != all.end();
}

/// What nobody can see or hear of an appliance in which nothing works.
bool needs_power(const std::string& symptom) {
  constexpr std::array all{
      std::string_view("error-code"),   std::string_view("noise"),         std::string_view("hum-or-smell"),
      std::string_view("long-defrost"), std::string_view("little-heat"),   std::string_view("warm-food-after-defrost"),
      std::string_view("little-air"),   std::string_view("short-defrost"), std::string_view("compressor-never-stops")};
  return std::find(all.begin(), all.end(), symptom) != all.end();
}

bool is_brought_about(const Appliance& appliance, std::span<const PartFault> faults, const std::string& symptom) {
  return std::any_of(faults.begin(), faults.end(), [&](const PartFault& fault) {
    const auto& effects = appliance.parts[fault.part].kind->descriptor().fault_modes[fault.fault].symptoms;
    return std::any_of(effects.begin(), effects.end(), [&](const auto& effect) { return effect.symptom == symptom; });
  });
}

/// The looks that could bring somebody there though none was drawn: what the faults may show, else what may mislead.
std::vector<std::size_t> reasons_to_call(const Appliance& appliance, std::span<const PartFault> faults,
                                         std::span<const Look> looks) {
  std::vector<std::size_t> shown;
  std::vector<std::size_t> misleading;
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < looks.size(); ++i) {
    all.push_back(i);
    if (is_brought_about(appliance, faults, looks[i].id)) shown.push_back(i);
    if (may_mislead(looks[i].id)) misleading.push_back(i);
  }
  return !shown.empty() ? shown : !misleading.empty() ? misleading : all;
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
  const Appliance& appliance = faults.appliance();
  const std::vector<PartFault> at_fault = faults_of(faults, truth);
  for (Look& look : looks) {
    locate::Signs sign;
    sign.symptoms.push_back({look.id, true});
    const double shows = locate::likelihood_of_signs(faults, truth, sign, {});
    const double share = draws.uniform();
    look.seen = share < shows && (may_mislead(look.id) || is_brought_about(appliance, at_fault, look.id));
  }
  const double which = draws.uniform();  // drawn whether it is needed or not: what follows is the same
  const bool shows_itself = std::any_of(looks.begin(), looks.end(), [](const Look& look) { return look.seen; });
  if (!looks.empty() && (truth.faults.empty() || !shows_itself)) {
    const std::vector<std::size_t> reasons = reasons_to_call(appliance, at_fault, looks);
    looks[reasons[picked(which, reasons.size())]].seen = true;
  }
  const bool is_dead =
      std::any_of(looks.begin(), looks.end(), [](const Look& look) { return look.seen && look.id == "dead"; });
  if (!is_dead) return;
  for (Look& look : looks) look.seen = look.seen && !needs_power(look.id);
}

bool are_told_by_looks(Reasoning& reasoning, std::span<const Look> looks, std::span<const std::size_t> parts) {
  locate::Signs signs;
  for (const Look& look : looks) signs.symptoms.push_back({look.id, look.seen});
  const double after_looking = reasoning.probability_of(reasoning.after({}, signs), parts);
  return after_looking > most_told_by_looks && after_looking > reasoning.probability_of(reasoning.after({}, {}), parts);
}

std::string drawn_complaint(const Appliance& appliance, std::span<const PartFault> faults, std::span<const Look> looks,
                            DrawStream& draws) {
  const Sentences say{UnitPreferences{}};
  std::vector<std::string> seen;
  const bool is_of_a_fault = std::any_of(looks.begin(), looks.end(), [&](const Look& look) {
    return look.seen && is_brought_about(appliance, faults, look.id);
  });
  std::size_t longest = sentence_of_owner({}, say).size();
  for (const Look& look : looks) {
    if (look.seen && (!is_of_a_fault || is_brought_about(appliance, faults, look.id))) seen.push_back(look.title);
    longest = std::max(longest, sentence_of_owner(look.title, say).size());
  }
  const double which = draws.uniform();
  std::string complaint = sentence_of_owner(seen.empty() ? std::string() : seen[picked(which, seen.size())], say);
  complaint.resize(longest, ' ');
  return complaint;
}

}  // namespace ohmwright::course
