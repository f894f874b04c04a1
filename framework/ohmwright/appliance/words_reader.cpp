#include <set>

#include <ohmwright/appliance/name_finder.hpp>
#include <ohmwright/appliance/places_reader.hpp>
#include <ohmwright/component/symptom.hpp>
#include <ohmwright/verdict/caution.hpp>
#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {

namespace {

using Words = std::set<std::string, std::less<>>;

/// Cautions of the framework, and of the kinds that the appliance is made of.
Words cautions_known_to(const Appliance& appliance) {
  Words known;
  for (const Caution& caution : framework_cautions()) known.emplace(caution.id);
  for (const PlacedPart& part : appliance.parts)
    for (const CautionDescriptor& own : part.kind->descriptor().cautions) known.emplace(own.id);
  return known;
}

/// Symptoms of the framework, of the appliance, and those that the faults of its parts show.
Words symptoms_known_to(const Appliance& appliance) {
  Words known;
  for (const Symptom& symptom : known_symptoms()) known.emplace(symptom.id);
  for (const OwnSymptom& own : appliance.symptoms) known.insert(own.id);
  for (const PlacedPart& part : appliance.parts)
    for (const FaultModeDescriptor& fault : part.kind->descriptor().fault_modes)
      for (const SymptomEffect& effect : fault.symptoms) known.emplace(effect.symptom);
  return known;
}

void check_word(const std::string& word, const ValueNode& place, const Words& known, const std::string& what,
                std::vector<Problem>& problems) {
  if (known.count(word) != 0) return;
  problems.push_back(place.problem("there is no " + what + " " + ohmwright::quoted(word) +
                                   suggestion(word, std::vector<std::string>(known.begin(), known.end()))));
}

void check_cautions(const ValueNode& root, const Words& known, std::vector<Problem>& problems) {
  for (const char* section : {"covers", "test_points", "set_ups"})
    for (const ValueNode& entry : list_of(root, section))
      for (const ValueNode& caution : list_of(entry, "cautions"))
        if (caution.text() != nullptr) check_word(*caution.text(), caution, known, "caution", problems);
}

void check_symptoms(const ValueNode& root, const Words& known, std::vector<Problem>& problems) {
  for (const ValueNode& cause : list_of(root, "outside_causes")) {
    const ValueNode* symptoms = cause.find("symptoms");
    if (symptoms == nullptr || symptoms->members() == nullptr) continue;
    for (const auto& [symptom, probability] : *symptoms->members())
      check_word(symptom, probability, known, "symptom", problems);
  }
}

/// Parts and test points of what the program has no part in.
void check_refused_work(const ValueNode& root, std::vector<Problem>& problems) {
  for (const char* section : {"parts", "test_points"})
    for (const ValueNode& entry : list_of(root, section))
      for (const char* field : {"id", "title"}) {
        const ValueNode* name = entry.find(field);
        if (name == nullptr || name->text() == nullptr) continue;
        const std::string_view reason = refused_work(*name->text());
        if (!reason.empty())
          problems.push_back(name->problem(ohmwright::quoted(*name->text()) + ": " + std::string(reason)));
      }
}

/// What can be typed after --symptom: small letters, digits and -, a letter first.
bool is_typable(std::string_view id) {
  const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  return !id.empty() && is_letter(id.front()) &&
         std::all_of(id.begin(), id.end(), [&](char c) { return is_letter(c) || c == '-' || (c >= '0' && c <= '9'); });
}

}  // namespace

void read_words(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  const ValueNode* evidence = root.find("evidence");
  if (evidence != nullptr && evidence->members() != nullptr)
    for (const auto& [id, title] : *evidence->members()) {
      if (!is_typable(id))
        problems.push_back(
            title.problem("a symptom's name has small letters, digits and - only, got " + ohmwright::quoted(id)));
      if (symptom_named(id) != nullptr)
        problems.push_back(title.problem("the program has the symptom " + ohmwright::quoted(id) +
                                         " already; leave it out, or give yours another name"));
      if (title.text() != nullptr) appliance.symptoms.push_back({id, *title.text()});
    }
  check_cautions(root, cautions_known_to(appliance), problems);
  check_symptoms(root, symptoms_known_to(appliance), problems);
  check_refused_work(root, problems);
}

}  // namespace ohmwright
