#include "part_check.hpp"

#include <algorithm>
#include <utility>

#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "check_readings.hpp"
#include "instrument_readings.hpp"
#include "made_with.hpp"

namespace ohmwright::cli {

namespace {

double chosen_confidence(const Arguments& arguments) {
  if (!arguments.has("--confidence")) return JudgeSettings{}.confidence;
  const std::string text = arguments.value("--confidence");
  const double confidence = parse_stated_value(text, Dimension::ratio).value.value_in_si();
  if (confidence > 0.5 && confidence < 1.0) return confidence;
  throw InputError("--confidence takes a probability between 0.5 and 1, such as 0.95, got " + ohmwright::quoted(text));
}

Verdict judged_by(const LoadedKind& kind, const Part& part, const Evidence& evidence, double confidence) {
  std::variant<Verdict, NotJudged> judged = judge_guarded(part, kind.descriptor(), evidence, JudgeSettings{confidence});
  if (const auto* failed = std::get_if<NotJudged>(&judged))
    throw Error(ErrorCategory::plugin, std::string(kind.descriptor().id) + ": " + failed->text);
  return std::get<Verdict>(std::move(judged));
}

}  // namespace

PartCheck::PartCheck(const LoadedKind& kind, RatedPart part, Instruments instruments, std::vector<Reading> readings,
                     const UnitPreferences& units, double confidence)
    : kind_(kind),
      part_(std::move(part)),
      instruments_(std::move(instruments)),
      readings_(std::move(readings)),
      units_(units),
      confidence_(confidence),
      evidence_(kind.descriptor(), readings_, instruments_.meters()),
      verdict_(judged_by(kind, *part_.part, evidence_, confidence)) {}

std::vector<OtherInstrument> PartCheck::other_instruments() const {
  std::vector<OtherInstrument> others;
  for (const Reading& reading : readings_) {
    if (reading.meter.empty()) continue;
    OtherInstrument other{reading.measurand, instruments_.meters().named(reading.meter).title,
                          instruments_.is_assumed(reading.meter)};
    if (std::find(others.begin(), others.end(), other) == others.end()) others.push_back(std::move(other));
  }
  return others;
}

VerdictReport PartCheck::report(const Arguments& arguments) const {
  return {.descriptor = kind_.descriptor(),
          .verdict = verdict_,
          .evidence = evidence_,
          .readings = readings_,
          .confidence = confidence_,
          .part_name = part_.name,
          .part_title = part_.title,
          .meter_title = instruments_.meters().named("").title,
          .meter_assumed = instruments_.is_usual_assumed(),
          .other_instruments = other_instruments(),
          .made_with = made_with(),
          .every_rule = arguments.has("--every-rule"),
          .cautions_in_full = arguments.has("--cautions")};
}

PartCheck checked_part(const LoadedKind& kind, RatedPart part, const Arguments& arguments,
                       const Environment& environment) {
  const double confidence = chosen_confidence(arguments);
  Instruments instruments(arguments, environment);
  UnitPreferences units;
  const std::optional<Reading> shown = reading_from_instrument(arguments, environment, kind.descriptor());
  std::vector<Reading> readings = gather_readings(arguments, kind.descriptor(), instruments.meters(), units, shown);
  for (const Reading& reading : readings)
    if (shown && reading.label == instrument_label && reading.supply == Supply::live)
      refuse_live_instrument(arguments, environment, arguments.value("--from"));
  instruments.choose(readings, kind.descriptor());
  return {kind, std::move(part), std::move(instruments), std::move(readings), units, confidence};
}

PartCheck checked_part(const LoadedKind& kind, RatedPart part, std::vector<Reading> readings,
                       const UnitPreferences& units, const Arguments& arguments, const Environment& environment) {
  Instruments instruments(arguments, environment);
  instruments.choose(readings, kind.descriptor());
  return {kind, std::move(part), std::move(instruments), std::move(readings), units, chosen_confidence(arguments)};
}

}  // namespace ohmwright::cli
