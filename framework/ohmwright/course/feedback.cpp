#include <algorithm>

#include <ohmwright/course/feedback.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/locate/leak_to_earth.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

std::string titles(const Bench& bench, const std::vector<std::size_t>& parts, const Sentences& say) {
  if (parts.empty()) return say(OHMWRIGHT_TEXT("nothing"));
  std::vector<std::string> all;
  for (const std::size_t part : parts) all.push_back(bench.appliance.parts[part].title);
  return listed(all);
}

/// "Coil sensor (sensor.open)"
std::string truth_text(const FeedbackOn& on, const Sentences& say) {
  std::string truth = titles(on.bench, on.truth, say);
  if (on.truth.empty()) return truth;
  return say(OHMWRIGHT_TEXT("{parts} ({faults})"), {{"parts", truth}, {"faults", listed(on.made.truth.names)}});
}

/// Of the right parts, the faults that were named in place of those that are there.
std::vector<std::string> other_faults(const FeedbackOn& on) {
  std::vector<std::string> others;
  for (const std::string& name : on.answer.named)
    if (name.find('.') != std::string::npos &&
        std::find(on.made.truth.names.begin(), on.made.truth.names.end(), name) == on.made.truth.names.end())
      others.push_back(name);
  return others;
}

bool is_right(const FeedbackOn& on) { return on.named == on.truth && on.graded.misnamed.empty(); }

/// Right in all that was said, and no reading that was cited speaks for it.
bool is_luck(const FeedbackOn& on) {
  return is_right(on) && other_faults(on).empty() && !(on.graded.marks.inference > 0.0);
}

std::string about_parts(const FeedbackOn& on, const Sentences& say) {
  const std::string truth = truth_text(on, say);
  if (on.named != on.truth)
    return say(OHMWRIGHT_TEXT("You named: {named}. At fault: {truth}."),
               {{"named", titles(on.bench, on.named, say)}, {"truth", truth}});
  if (!on.graded.misnamed.empty())
    return say(OHMWRIGHT_TEXT("The part is right, what you say is wrong with it is not: your readings rule {named} "
                              "out. At fault: {truth}."),
               {{"named", listed(on.graded.misnamed)}, {"truth", truth}});
  if (is_luck(on))
    return say(OHMWRIGHT_TEXT("At fault: {truth}. That is what you named, and nothing you cited says so: it came out "
                              "right by luck."),
               {{"truth", truth}});
  const std::vector<std::string> others = other_faults(on);
  if (others.empty()) return say(OHMWRIGHT_TEXT("Right. At fault: {truth}."), {{"truth", truth}});
  return say(OHMWRIGHT_TEXT("The part is right. At fault: {truth}; you named {named}, which your readings do not tell "
                            "from it."),
             {{"named", listed(others)}, {"truth", truth}});
}

/// Of cited entries that tell the engine nothing.
std::string about_idle_citing(const FeedbackOn& on, const Sentences& say) {
  const bool cites_a_measurement =
      std::any_of(on.answer.because.begin(), on.answer.because.end(), [&](std::size_t number) {
        return number < on.record.entries.size() && on.record.entries[number].action == "measure";
      });
  if (cites_a_measurement)
    return say(
        OHMWRIGHT_TEXT("The readings you cited say nothing: OL on a range that is too low, or volts with the "
                       "plug out. Cite one that could have come out otherwise."));
  return say(OHMWRIGHT_TEXT("None of the entries you cited is a reading. Cite those that ruled the others out."));
}

std::string about_inference(const FeedbackOn& on, const Sentences& say) {
  if (on.answer.because.empty())
    return say(OHMWRIGHT_TEXT("You cited no reading. An answer without reasons may be right by luck."));
  if (on.graded.readings_cited == 0) return about_idle_citing(on, say);
  const std::string percent = percent_text(on.graded.followed);
  constexpr double unlikely = 1.0 - decided_probability;
  if (on.graded.marks.inference >= 1.0)
    return say(OHMWRIGHT_TEXT("The readings you cited make your answer {probability} likely: it followed from them."),
               {{"probability", percent}});
  if (on.graded.followed < unlikely)
    return say(OHMWRIGHT_TEXT("The readings you cited make your answer {probability} likely: they speak against it."),
               {{"probability", percent}});
  if (on.graded.decided_at && is_right(on))
    return say(OHMWRIGHT_TEXT("The readings you cited make your answer {probability} likely: by themselves they do not "
                              "decide it. Cite those, too, that ruled the others out."),
               {{"probability", percent}});
  return say(OHMWRIGHT_TEXT("The readings you cited make your answer {probability} likely: they do not decide it yet."),
             {{"probability", percent}});
}

std::string about_decision(const FeedbackOn& on, const Sentences& say) {
  if (!on.graded.decided_at)
    return say(OHMWRIGHT_TEXT("None of your readings, nor all together, decided which part it is."));
  const std::size_t at = *on.graded.decided_at;
  const Entry& entry = on.record.entries[at];
  return say(OHMWRIGHT_TEXT("Your readings decided it at entry {number}: {point}, {shown}."),
             {{"number", std::to_string(at)}, {"point", place_in_words(entry)}, {"shown", shown_in_words(entry, say)}});
}

std::string about_confidence(const FeedbackOn& on, const Sentences& say) {
  const bool is_right = course::is_right(on);
  constexpr double sure = 0.5;
  constexpr double unsure = 0.6;
  const std::string percent = percent_text(on.answer.confidence);
  if (!is_right && on.answer.confidence <= sure)
    return say(OHMWRIGHT_TEXT("You were {confidence} sure of an answer that was wrong: that doubt was in its place."),
               {{"confidence", percent}});
  if (!is_right && on.named == on.truth)
    return say(OHMWRIGHT_TEXT("You were {confidence} sure and wrong: in life the customer is told of another fault "
                              "than the one that is there."),
               {{"confidence", percent}});
  if (!is_right)
    return say(on.named.empty()
                   ? OHMWRIGHT_TEXT("You were {confidence} sure and wrong: in life that is a fault left in, and "
                                    "a second call.")
                   : OHMWRIGHT_TEXT("You were {confidence} sure and wrong: in life that is a good part "
                                    "replaced."),
               {{"confidence", percent}});
  if (is_luck(on))
    return say(on.answer.confidence <= unsure
                   ? OHMWRIGHT_TEXT("You were {confidence} sure of what no reading told you: that doubt was in its "
                                    "place. Look for the reading that would settle it.")
                   : OHMWRIGHT_TEXT("You were {confidence} sure of what no reading told you: the next time that is a "
                                    "good part replaced."),
               {{"confidence", percent}});
  if (on.graded.decided_at && on.answer.confidence <= unsure)
    return say(OHMWRIGHT_TEXT("You were right and only {confidence} sure, though your readings had settled it: state "
                              "what they carry."),
               {{"confidence", percent}});
  if (on.answer.confidence <= unsure)
    return say(OHMWRIGHT_TEXT("You were right and only {confidence} sure: look for the reading that would settle it."),
               {{"confidence", percent}});
  return say(OHMWRIGHT_TEXT("Your confidence, {confidence}, fits how it came out."), {{"confidence", percent}});
}

/// Whether the exercise is of a leak: what tripped is then held against Ohm's law.
bool leaks_though_it_tripped(const FeedbackOn& on) {
  return std::any_of(on.made.truth.faults.begin(), on.made.truth.faults.end(), [&](const PartFault& fault) {
    const auto& effects = on.bench.appliance.parts[fault.part].kind->descriptor().fault_modes[fault.fault].symptoms;
    return !on.bench.on_the_table && std::any_of(effects.begin(), effects.end(), [](const auto& effect) {
      return effect.symptom == locate::trips_residual_current_device;
    });
  });
}

void add_hazards(const FeedbackOn& on, const Sentences& say, std::vector<std::string>& words) {
  std::vector<std::string> told;
  for (const std::string& hazard : on.replay.hazards) {
    if (std::find(told.begin(), told.end(), hazard) != told.end()) continue;
    told.push_back(hazard);
    words.push_back(say(hazard_text(hazard)));
  }
}

}  // namespace

std::vector<std::string> feedback(const FeedbackOn& on) {
  const Sentences say{UnitPreferences{}};
  std::vector<std::string> words;
  if (on.graded.was_edited)
    words.push_back(on.edited_at
                        ? say(OHMWRIGHT_TEXT("The record was changed after it was made, at entry {number}: no marks."),
                              {{"number", std::to_string(*on.edited_at)}})
                        : say(OHMWRIGHT_TEXT("The record belongs to another file than the one handed out: no marks.")));
  add_hazards(on, say, words);
  if (on.graded.was_edited) return words;  // of an answer that may be another's nothing is said
  if (!on.graded.marks.safety)
    words.push_back(
        say(OHMWRIGHT_TEXT("You measured nothing: there is no mark for safety, and what you named is a guess that "
                           "counts half.")));
  words.push_back(about_parts(on, say));
  words.push_back(about_inference(on, say));
  words.push_back(about_decision(on, say));
  words.push_back(about_confidence(on, say));
  if (leaks_though_it_tripped(on)) words.push_back(say(about_leaks_that_trip()));
  return words;
}

}  // namespace ohmwright::course
