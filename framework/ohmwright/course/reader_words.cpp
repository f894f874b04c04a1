#include <ohmwright/component/symptom.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright::course {

std::string caution_in_words(const std::pair<std::string, std::string>& caution, const Sentences& say) {
  const Caution* known = caution_named(caution.first);
  return known == nullptr ? caution.second : say(known->english);
}

std::string look_in_words(const Look& look, const Sentences& say) {
  const Symptom* known = symptom_named(look.id);
  return known == nullptr ? look.title : say(known->english);
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
