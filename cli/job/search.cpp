#include "job/search.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <ohmwright/component/symptom.hpp>
#include <ohmwright/job/part_proof.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/safety/refrigerant.hpp>

#include "job/appliance.hpp"
#include "job/reading_judged.hpp"
#include "job/safety.hpp"
#include "job/temperatures.hpp"
#include "kind_files.hpp"
#include "locate/words.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::string_view out_of_reach = "--cannot-reach";
/// What holds of the place and the instruments, whatever is repaired.
constexpr std::array<std::string_view, 4> lasting_words{"--meter", "--zone", "--state", out_of_reach};

bool lasts(std::string_view option) {
  return std::find(lasting_words.begin(), lasting_words.end(), option) != lasting_words.end();
}

/// A reading of a part as one at the test point that reads it alone.
std::optional<JobSearch::ReadingOfPart> as_test_reading(const job::MeasuredValue& value, const Appliance& appliance) {
  if (value.part.empty()) return std::nullopt;
  for (const Reading& reading : job::readings_of(value)) {
    const std::optional<std::size_t> point = test_point_of_part(appliance, value.part, reading.measurand);
    if (!point || reading.connection == Connection::in_circuit || reading.supply == Supply::live) continue;
    if (reading.moisture == Moisture::wet) continue;  // water is no fault of the part
    const PlacedPart& part = appliance.parts[*part_named(appliance, value.part)];
    JobSearch::ReadingOfPart of_part{{{*point, {}}, reading.observed, appliance.test_points[*point].id}, {}};
    of_part.taken.range = reading.range;
    for (const Condition& condition : reading.conditions)
      if (condition.id == "part_temperature" && part.zone) of_part.stated.push_back({*part.zone, condition.value});
    return of_part;
  }
  return std::nullopt;
}

/// Whether a leak that was read is known to be none any more: its insulation was read good since, and nothing says that
/// it may come back with the water.
bool leak_was_cured(const job::ServiceCall& call, const job::MeasuredValue& value) {
  const auto finds = [](const job::MeasuredValue& reading, const auto& says) {
    return std::any_of(reading.safety.begin(), reading.safety.end(), [&says](const job::SafetyFinding& finding) {
      return finding.rule != job::leak_rule && says(finding.outcome);
    });
  };
  const std::vector<job::ProofStep> open = job::open_proof(call);
  return finds(value, [](Outcome outcome) { return outcome != Outcome::within_limits; }) &&
         std::none_of(open.begin(), open.end(),
                      [&](const job::ProofStep& step) {
                        return step.form == job::ProofStep::Form::leak_unexplained && step.part == value.subject();
                      }) &&
         std::any_of(call.readings.begin(), call.readings.end(), [&](const job::MeasuredValue& later) {
           return later.part == value.part && value.happened_before(later) &&
                  finds(later, [](Outcome outcome) { return outcome == Outcome::within_limits; });
         });
}

/// Whether it was closed and plugged in again since something was read: it was forced to defrost, logged, or left
/// running.
bool ran_since(const job::ServiceCall& call, const job::MeasuredValue& value) {
  return value.when < call.state_since ||
         std::any_of(call.checks.begin(), call.checks.end(), [&value](const job::Check& check) {
           return check.form != job::CheckForm::earth_bond && value.happened_before(check);
         });
}

const job::ReplacedPart* first_work(const job::ServiceCall& call) {
  const auto first = std::min_element(call.replaced.begin(), call.replaced.end(),
                                      [](const job::Told& a, const job::Told& b) { return a.happened_before(b); });
  return first == call.replaced.end() ? nullptr : &*first;
}

/// What the label was said to name, where that is worse than what the appliance's file says. Who works on it reads the
/// label all the same: what was said on the phone takes no caution away.
void take_label(const job::ServiceCall& call, Appliance& appliance) {
  const auto label = call.phone.find("refrigerant");
  if (label == call.phone.end() || appliance.refrigerant == "none" || !refrigerant_may_burn(label->second)) return;
  if (refrigerant_safety_class(label->second))
    appliance.refrigerant = "flammable";
  else if (appliance.refrigerant == "non-flammable" && label->second != "unknown")
    appliance.refrigerant = "unknown";
}

/// Every fault of the parts that were replaced until then, as weights that take it out of the search. One that was
/// mended in place is still the old one, and may have another fault.
void take_new_parts_for_good(const job::ServiceCall& call, const job::Told& until, const Appliance& appliance,
                             locate::SearchSettings& settings) {
  for (const job::ReplacedPart& replaced : call.replaced) {
    const std::optional<std::size_t> part = part_named(appliance, replaced.part);
    if (!part || replaced.was_mended() || until.happened_before(replaced)) continue;
    for (const FaultModeDescriptor& mode : appliance.parts[*part].kind->descriptor().fault_modes)
      settings.weights[replaced.part + "." + std::string(mode.id)] = 0.0;
  }
}

TimeSpan span_of(const job::ServiceCall& call, JobSearch::Reach reach) {
  TimeSpan span;
  if (reach == JobSearch::Reach::now) span.from = call.last_work();
  if (reach == JobSearch::Reach::diagnosis) span.to = first_work(call);
  return span;
}

/// What a forced defrost that failed shows of the appliance, as somebody would say it who saw it: the last of that
/// span. Empty: none was forced, or it ended as it should.
std::string symptom_of_forced_defrost(const job::ServiceCall& call, const TimeSpan& span) {
  const job::Check* last = job::latest(call.checks, [&](const job::Check& check) {
    return check.form == job::CheckForm::forced_defrost && span.holds(check);
  });
  if (last == nullptr || last->outcome != Outcome::out_of_limits || !call.cools()) return {};
  return last->result == job::heat_without_end ? "long-defrost" : "no-heat";
}

}  // namespace

MetersOfCall meters_of_call(const job::ServiceCall& call, const Environment& environment) {
  MetersOfCall all;
  std::vector<std::string> names;
  for (auto word = call.evidence.rbegin(); word != call.evidence.rend(); ++word) {
    if (word->option != "--meter") continue;
    const std::string& named = word->file.empty() ? word->word : word->file;
    try {
      const std::string name = chosen_meter(environment, named).name;
      if (std::find(names.begin(), names.end(), name) != names.end()) continue;
      names.push_back(name);
      all.words.push_back(named);
    } catch (const Error& error) {  // books of the first versions kept the path alone, and the file has moved
      if (error.category() != ErrorCategory::input) throw;
      if (names.empty() && all.lost.empty()) all.lost = word->word;
    }
  }
  return all;
}

Meter meter_of_call(const job::ServiceCall& call, const Environment& environment) {
  const MetersOfCall meters = meters_of_call(call, environment);
  return chosen_meter(environment, meters.words.empty() ? std::string() : meters.words.front());
}

bool signs_speak_of_sealed_system(const job::ServiceCall& call) {
  constexpr std::string_view refrigerant_found = "refrigerant-short=found";  // so the shipped appliances call it
  const Arguments words = locate_words_of(call);
  const auto looked = words.options.find("--looked");
  if (looked != words.options.end() &&
      std::find(looked->second.begin(), looked->second.end(), refrigerant_found) != looked->second.end())
    return true;
  const auto seen = words.options.find("--symptom");
  return seen != words.options.end() &&
         std::any_of(seen->second.begin(), seen->second.end(), [](const std::string& id) {
           const Symptom* symptom = symptom_named(id);
           return symptom != nullptr && symptom->of == SymptomOf::sealed_system;
         });
}

bool label_may_burn(const job::ServiceCall& call) {
  const auto label = call.phone.find("refrigerant");
  return label == call.phone.end() || refrigerant_may_burn(label->second);
}

bool stops_at_sealed_system(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment) {
  if (!call.has_appliance()) return signs_speak_of_sealed_system(call);
  return stops_at_sealed_system(call, JobSearch(call, arguments, environment, JobSearch::Reach::now), environment);
}

bool stops_at_sealed_system(const job::ServiceCall& call, const JobSearch& now, const Environment& environment) {
  if (now.stops_at_sealed_system()) return true;
  const job::ReplacedPart* first = first_work(call);
  if (first == nullptr) return false;
  job::ServiceCall seen = call;  // a repair of another part takes no stain of oil away
  std::erase_if(seen.readings, [first](const job::MeasuredValue& reading) { return !reading.happened_before(*first); });
  seen.replaced.clear();
  return JobSearch(seen, Arguments{}, environment, JobSearch::Reach::now).stops_at_sealed_system();
}

namespace {

/// What an answer of the phone says that somebody sees or feels. That there is no frost says nothing: whether the
/// compressor ran nobody asked.
struct SignOfPhone {
  std::string_view question;
  std::string_view answer;
  std::string_view symptom;
  bool is_looked_at_again = false;  ///< who stands before it sees it, or sees that it is not so
};
constexpr std::array signs_of_phone{
    SignOfPhone{"tingles", "yes", "shock-from-cabinet"}, SignOfPhone{"burning_smell", "yes", "hum-or-smell"},
    SignOfPhone{"frost", "whole", "frost-whole-coil", true}, SignOfPhone{"frost", "one-end", "frost-far-end", true}};

/// What was said on the phone in that span, as somebody would say it who sees it; what was said of it at the appliance
/// stands over it.
void add_signs_of_phone(const job::ServiceCall& call, const TimeSpan& span, const Appliance& appliance,
                        Arguments& words) {
  const std::vector<std::string> known = symptoms_of(appliance);
  const auto says = [&words](const char* option, const std::string& symptom) {
    const auto said = words.options.find(option);
    return said != words.options.end() &&
           std::find(said->second.begin(), said->second.end(), symptom) != said->second.end();
  };
  for (const SignOfPhone& sign : signs_of_phone) {
    const std::string symptom(sign.symptom);
    const auto answer = call.phone.find(std::string(sign.question));
    const auto when = call.answered.find(std::string(sign.question));
    if (answer == call.phone.end() || when == call.answered.end() || answer->second != sign.answer) continue;
    if (!span.holds(when->second) || (sign.is_looked_at_again && call.has_stage(job::Stage::looked))) continue;
    if (std::find(known.begin(), known.end(), symptom) == known.end()) continue;
    if (!says("--symptom", symptom) && !says("--no-symptom", symptom)) words.options["--symptom"].push_back(symptom);
  }
}

/// What is said of a symptom or of a cause stands until another is said of it: who has seen to it looks again.
void take_back_what_was_said(const job::EvidenceWord& word, Arguments& words) {
  const auto erase = [&words](std::string_view option, const auto& is_of_it) {
    if (const auto said = words.options.find(option); said != words.options.end()) {
      std::erase_if(said->second, is_of_it);
      if (said->second.empty()) words.options.erase(said);
    }
  };
  const auto is_same = [&word](const std::string& other) { return other == word.word; };
  if (word.option == "--symptom") erase("--no-symptom", is_same);
  if (word.option == "--no-symptom") erase("--symptom", is_same);
  if (word.option == "--looked") {
    const std::string cause = word.word.substr(0, word.word.find('=') + 1);
    erase("--looked", [&cause](const std::string& other) { return other.starts_with(cause); });
  }
}

}  // namespace

Arguments locate_words_of(const job::ServiceCall& call, const TimeSpan& span) {
  Arguments words;
  for (const job::EvidenceWord& word : call.evidence) {
    if (word.option.substr(0, 2) != "--" || (!lasts(word.option) && !span.holds(word))) continue;
    take_back_what_was_said(word, words);
    words.options[word.option].push_back(word.word);
  }
  if (const std::string symptom = symptom_of_forced_defrost(call, span); !symptom.empty())
    words.options["--symptom"].push_back(symptom);
  if (const auto room = call.phone.find("room"); room != call.phone.end() && room->second != "unknown")
    words.options[std::string(telephone_room)] = {room->second};
  return words;
}

Arguments words_for(const Appliance& appliance, Arguments words, std::vector<std::string>* passed_over) {
  for (auto& [option, values] : words.options)
    std::erase_if(values, [&, name = &option](const std::string& word) {
      Arguments alone;
      alone.options[*name] = {word};
      UnitPreferences units;
      try {
        (void)typed_site(alone, appliance, units);
        (void)typed_signs(alone, appliance);
        (void)typed_settings(alone, appliance);
        return false;
      } catch (const Error& error) {
        if (error.category() != ErrorCategory::input) throw;
        if (passed_over != nullptr) passed_over->push_back(word);
        return true;
      }
    });
  return words;
}

JobSearch::JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment, Reach reach)
    : JobSearch(call, typed, environment, span_of(call, reach),
                reach == Reach::signs ? Weighs::signs_alone : Weighs::readings_too) {}

JobSearch::JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment,
                     const TimeSpan& span)
    : JobSearch(call, typed, environment, span, Weighs::readings_too) {}

JobSearch::JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment,
                     const TimeSpan& span, Weighs weighs)
    : appliance_(appliance_of(call, environment)), meter_(meter_of_call(call, environment)) {
  Arguments words = words_for(appliance_, locate_words_of(call, span), &passed_over_);
  add_signs_of_phone(call, span, appliance_, words);
  take_label(call, appliance_);
  locate::SearchSettings settings = typed_settings(words, appliance_);
  bars_energising_ = !job::bars_to_energising(call).empty();
  settings.steps.allow_live = (typed.has("--allow-live") || call.agreed_to_live_work()) && !bars_energising_;
  settings.steps.insulation_is_good = job::insulation_is_proved(call);
  if (span.from != nullptr) take_new_parts_for_good(call, *span.from, appliance_, settings);
  const job::Told moment = span.to == nullptr ? moment_now(call) : *span.to;
  const locate::Site now = typed_site(words_at(call, appliance_, moment, span), appliance_, units_);
  if (weighs == Weighs::readings_too) add_readings(call, span, now);
  search_.emplace(appliance_, meter_, now, settings);
  for (const locate::TakenReading& reading : readings_) search_->add(reading);
  search_->was_closed_before(first_of_visit_);
  search_->signs() = typed_signs(words, appliance_);
  const auto unreachable = words.options.find(out_of_reach);
  if (unreachable != words.options.end())
    for (const std::string& id : unreachable->second)
      if (const std::optional<std::size_t> point = test_point_named(appliance_, id)) search_->cannot_reach(*point);
  search_->think();
  bars_heating_ = !bars_to_heating(call, &appliance_, environment).empty();
  for (const locate::Step& step : search_->steps())
    if (!is_barred(step)) steps_.push_back(step);
}

/// What is looked at is looked at with bare hands, often while it runs.
bool JobSearch::is_barred(const locate::Step& step) const {
  if (step.form == locate::Step::Form::look) return bars_energising_;
  if (step.form != locate::Step::Form::measure) return false;
  return (bars_energising_ && locate::is_live(appliance_, step.measurement)) ||
         (bars_heating_ && locate::may_heat(appliance_, step.measurement));
}

std::optional<JobSearch::ReadingOfPart> JobSearch::reading_in(const job::MeasuredValue& value) {
  if (value.word.empty()) {
    std::optional<ReadingOfPart> of_part = as_test_reading(value, appliance_);
    // How good a good insulation is says nothing of which part is at fault.
    const bool is_of_insulation = of_part && locate::is_to_earth(appliance_, of_part->taken.measurement);
    if (is_of_insulation && !locate::tells_of_leak(appliance_, of_part->taken, meter_)) return std::nullopt;
    return of_part;
  }
  try {
    return ReadingOfPart{
        typed_test_reading(value.word, TypedReadings{appliance_, meter_, units_, {}, /*was_kept=*/true}),
        stated_with(value.zones, appliance_, units_)};
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    passed_over_.push_back(value.word);
    return std::nullopt;
  }
}

/// Each as it was read at its time: what is known of temperatures now, may have been otherwise then.
void JobSearch::add_readings(const job::ServiceCall& call, const TimeSpan& span, const locate::Site& now) {
  for (const job::MeasuredValue& value : call.readings) {
    if (!span.holds(value)) continue;
    std::optional<ReadingOfPart> reading = reading_in(value);
    if (!reading || (value.word.empty() && leak_was_cured(call, value))) continue;
    locate::Measurement& measurement = reading->taken.measurement;
    const locate::Site then = typed_site(words_at(call, appliance_, value, span), appliance_, units_);
    measurement.set_up = set_up_then(measurement, then, now, std::move(reading->stated), appliance_);
    readings_.push_back(std::move(reading->taken));
    if (value.visit < call.visits || ran_since(call, value)) first_of_visit_ = readings_.size();
  }
}

}  // namespace ohmwright::cli
