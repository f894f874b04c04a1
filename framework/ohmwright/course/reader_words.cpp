#include <ohmwright/component/symptom.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/locate/leak_to_earth.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright::course {

namespace {

constexpr std::string_view owner_of_a_symptom =
    OHMWRIGHT_TEXT("Who owns it says: {symptom}. Find out what is wrong, if anything is.");

/// As the pattern itself has it, in whatever language texts are asked for.
std::string sentence_in_english(std::string_view symptom) {
  constexpr std::string_view field = "{symptom}";
  std::string sentence(owner_of_a_symptom);
  return sentence.replace(sentence.find(field), field.size(), symptom);
}

}  // namespace

std::string sentence_of_owner(const std::string& symptom, const Sentences& say) {
  if (symptom.empty())
    return say(
        OHMWRIGHT_TEXT("It does not work as it should, says who owns it. Find out what is wrong, if anything is."));
  return say(owner_of_a_symptom, {{"symptom", symptom}});
}

std::string sentence_of_the_table(const Sentences& say) {
  return say(OHMWRIGHT_TEXT("It lies on the table, connected to nothing. Is it good? If not, what is wrong with it?"));
}

std::string complaint_in_words(const Exercise& exercise, const Sentences& say) {
  if (exercise.on_the_table) return sentence_of_the_table(say);
  const std::string said = exercise.complaint.substr(0, exercise.complaint.find_last_not_of(' ') + 1);
  for (const Look& look : exercise.looks) {
    const Symptom* known = symptom_named(look.id);
    if (known != nullptr && said == sentence_in_english(known->english))
      return sentence_of_owner(say(known->english), say);
  }
  return exercise.complaint;
}

std::string place_in_words(const Entry& entry) {
  std::string text = entry.subject;
  if (!entry.set_up.empty()) text += "@" + entry.set_up;
  if (!entry.leads.empty()) text += entry.leads == "in" ? " in-circuit" : " lead-off";
  return text;
}

std::string shown_in_words(const Entry& entry, const Sentences& say) {
  if (entry.shown == "yes") return say(OHMWRIGHT_TEXT("yes"));
  if (entry.shown == "no") return say(OHMWRIGHT_TEXT("no"));
  if (entry.shown == "dead") return say(OHMWRIGHT_TEXT("dead"));
  if (entry.shown == "LIVE") return say(OHMWRIGHT_TEXT("LIVE"));
  return entry.shown;
}

std::string caution_in_words(const std::pair<std::string, std::string>& caution, const Sentences& say) {
  const Caution* known = caution_named(caution.first);
  return known == nullptr ? caution.second : say(known->english);
}

std::string look_in_words(const Look& look, const Sentences& say) {
  const Symptom* known = symptom_named(look.id);
  return known == nullptr ? look.title : say(known->english);
}

std::string_view about_leaks_that_trip() {
  return OHMWRIGHT_TEXT(
      "A residual-current device of 30 mA must not trip at 15 mA and must at 30 mA (IEC 61008-1): by volts over ohms a "
      "leak of 4 kΩ or less trips it at 120 V, one of 7.7 kΩ or less at 230 V. Wet and hot a part leaks more than an "
      "ohmmeter shows cold and dry, so that it may have tripped by a leak that reads more. At the end that lies at the "
      "neutral there are hardly any volts to drive a current: there it seldom trips.");
}

std::string remark_on_looks(const Exercise& exercise, const Sentences& say) {
  for (const Look& look : exercise.looks)
    if (look.id == locate::trips_residual_current_device)
      return say(OHMWRIGHT_TEXT(
          "A leak passes more wet and hot than an ohmmeter shows cold and dry: a residual-current device "
          "of 30 mA may have tripped by one of more ohms than volts over 30 mA."));
  return {};
}

std::vector<std::string> plates_of(const Exercise& exercise) {
  std::vector<std::string> lines;
  for (const AnswerPart& part : exercise.parts)
    if (!part.plate.empty()) lines.push_back(part.title + ": " + part.plate);
  return lines;
}

std::vector<std::string> temperatures_as_found(const Exercise& exercise) {
  std::vector<std::string> lines;
  for (const ZoneShown& shown : exercise.as_found) lines.push_back(shown.zone + ": " + shown.temperature);
  return lines;
}

std::string set_up_in_words(const Exercise& exercise, std::size_t set_up) {
  std::string warmth;
  for (const ZoneShown& shown : exercise.after_set_up[set_up]) {
    if (!warmth.empty()) warmth += "; ";
    warmth += exercise.on_the_table ? shown.temperature : shown.zone + ": " + shown.temperature;
  }
  const std::string& title = exercise.places.set_ups[set_up].title;
  return warmth.empty() ? title : title + " [" + warmth + "]";
}

}  // namespace ohmwright::course
