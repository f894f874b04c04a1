#include <algorithm>
#include <cmath>
#include <optional>

#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

std::shared_ptr<const Part> part_of(const LoadedKind& kind, const VectorCase& vector) {
  std::optional<RatingsDocument> file;
  const ValueNode* ratings = vector.ratings;
  if (!vector.ratings_name.empty()) {
    const std::string path = named_file(kind.ratings_folder().string(), vector.ratings_name, "ratings");
    file = read_ratings(read_document_to_check(path), kind.descriptor());
    ratings = file->ratings;
  }
  std::vector<Problem> problems;
  std::shared_ptr<const Part> part = kind.make_part(ratings, problems);
  if (part == nullptr) throw DocumentError(file ? file->file : "vector " + vector.id, std::move(problems));
  return part;
}

std::string number_text(double value) { return exact_text(AnyQuantity(Dimension::ratio, value)); }

/// A figure of a finding: the estimate, a limit, or a named argument.
std::optional<AnyQuantity> figure_of(const Finding& finding, const std::string& name) {
  if (name == "measured") return finding.measured;
  if (name == "lower") return finding.limits.lower;
  if (name == "upper") return finding.limits.upper;
  for (const FindingArgument& argument : finding.arguments) {
    if (argument.name != name) continue;
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return *quantity;
    if (const auto* number = std::get_if<double>(&argument.value)) return AnyQuantity(Dimension::ratio, *number);
  }
  return std::nullopt;
}

/// Compares a verdict with what its vector expects.
class Comparison {
 public:
  Comparison(const VectorCase& vector, const Descriptor& descriptor, const Verdict& verdict)
      : vector_(vector), descriptor_(descriptor), verdict_(verdict) {}

  std::vector<std::string> differences() {
    compare_outcome();
    compare_probability();
    compare_rules();
    for (const ExpectedFigure& expected : vector_.figures) compare_figure(expected);
    if (vector_.advice) compare_advice();
    return std::move(differences_);
  }

 private:
  void compare_outcome() {
    if (verdict_.outcome != vector_.verdict)
      differ("verdict " + std::string(name_of(verdict_.outcome)) + ", expected " +
             std::string(name_of(vector_.verdict)));
  }

  void compare_probability() {
    if (!vector_.probability_within) return;
    const ExpectedProbability& expected = *vector_.probability_within;
    const std::optional<double> got = verdict_.probability_within;
    if (!got || !(std::abs(*got - expected.value) <= expected.tolerance))
      differ("probability_within " + (got ? number_text(*got) : std::string("absent")) + ", expected " +
             number_text(expected.value) + " within " + number_text(expected.tolerance));
  }

  bool expects(std::string_view rule, Outcome outcome) const {
    return std::any_of(vector_.rules.begin(), vector_.rules.end(), [&](const ExpectedRule& expected) {
      return expected.rule == rule && expected.outcome == outcome;
    });
  }

  /// Whether the vector speaks of that rule and all that it expects of it is there.
  bool has_all_of(std::string_view rule) const {
    bool listed = false;
    for (const ExpectedRule& expected : vector_.rules) {
      if (expected.rule != rule) continue;
      if (!finds(expected)) return false;
      listed = true;
    }
    return listed;
  }

  /// A rule may speak of several readings. Each outcome that the vector lists for it must be there, and whatever else
  /// it finds must be silent: a finding that nobody expected is a difference though another one beside it is right.
  void compare_rules() {
    for (const ExpectedRule& expected : vector_.rules)
      if (!finds(expected))
        differ(expected.rule + ": " + found_by(expected.rule) + ", expected " + word(expected.outcome));
    for (const Finding& finding : verdict_.findings) {
      const std::string_view rule = descriptor_.rules[finding.rule].id;
      if (finding.outcome == Outcome::silent || !has_all_of(rule) || expects(rule, finding.outcome)) continue;
      differ(std::string(rule) + ": also " + word(finding.outcome) + ", which is not expected");
    }
  }

  bool finds(const ExpectedRule& expected) const {
    return std::any_of(verdict_.findings.begin(), verdict_.findings.end(), [&](const Finding& finding) {
      return descriptor_.rules[finding.rule].id == expected.rule && finding.outcome == expected.outcome;
    });
  }

  std::string found_by(std::string_view rule) const {
    std::string found;
    for (const Finding& finding : verdict_.findings)
      if (descriptor_.rules[finding.rule].id == rule) found += (found.empty() ? "" : ", ") + word(finding.outcome);
    return found.empty() ? "no finding" : found;
  }

  static std::string word(Outcome outcome) { return std::string(name_of(outcome)); }

  void compare_figure(const ExpectedFigure& expected) {
    std::string got = "no such figure";
    for (const Finding& finding : verdict_.findings) {
      if (descriptor_.rules[finding.rule].id != expected.rule) continue;
      const std::optional<AnyQuantity> figure = figure_of(finding, expected.figure);
      if (!figure) continue;
      const AllowedFigure allowed = allowed_in(expected, figure->dimension());
      if (std::abs(figure->value_in_si() - allowed.value) <= allowed.tolerance) return;
      got = exact_text(*figure) + ", expected " + exact_text(AnyQuantity(figure->dimension(), allowed.value)) +
            " within " + number_text(allowed.tolerance);
    }
    differ(expected.rule + "." + expected.figure + ": " + got);
  }

  void compare_advice() {
    std::vector<std::string> got;
    for (const Advice& advice : verdict_.advice) got.emplace_back(descriptor_.advice[advice.text].id);
    for (const std::string& expected : *vector_.advice)
      if (std::find(got.begin(), got.end(), expected) == got.end()) differ("advice \"" + expected + "\" is missing");
    if (vector_.advice->empty() && !got.empty()) differ("advice \"" + got.front() + "\", expected none");
  }

  void differ(std::string text) { differences_.push_back(std::move(text)); }

  const VectorCase& vector_;
  const Descriptor& descriptor_;
  const Verdict& verdict_;
  std::vector<std::string> differences_;
};

}  // namespace

PreparedVector prepare_vector(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters) {
  std::vector<Meter> ordered{meters.named(vector.meter)};
  for (const Meter& meter : meters.all())
    if (meter.name != ordered.front().name) ordered.push_back(meter);
  JudgeSettings settings;
  settings.confidence = vector.confidence.value_or(settings.confidence);
  return {part_of(kind, vector), MeterSet(std::move(ordered)), settings};
}

std::vector<std::string> differences(const VectorCase& vector, const Descriptor& descriptor, const Verdict& verdict) {
  return Comparison(vector, descriptor, verdict).differences();
}

std::vector<std::string> check_vector(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters) {
  const PreparedVector prepared = prepare_vector(kind, vector, meters);
  const Evidence evidence(kind.descriptor(), vector.readings, prepared.meters);
  const auto judged = judge_guarded(*prepared.part, kind.descriptor(), evidence, prepared.settings);
  if (const auto* failed = std::get_if<NotJudged>(&judged)) return {failed->text};
  return differences(vector, kind.descriptor(), std::get<Verdict>(judged));
}

std::vector<std::string> outcomes_without_a_vector(const LoadedKind& kind, const std::vector<VectorCase>& vectors,
                                                   const MeterSet& meters) {
  const Descriptor& descriptor = kind.descriptor();
  std::vector<std::uint8_t> shown(descriptor.rules.size(), 0);
  for (const VectorCase& vector : vectors) {
    const PreparedVector prepared = prepare_vector(kind, vector, meters);
    const Evidence evidence(descriptor, vector.readings, prepared.meters);
    const auto judged = judge_guarded(*prepared.part, descriptor, evidence, prepared.settings);
    const auto* verdict = std::get_if<Verdict>(&judged);
    if (verdict == nullptr) continue;
    for (const Finding& finding : verdict->findings) shown[finding.rule] |= outcome_bit(finding.outcome);
  }
  std::vector<std::string> missing;
  for (std::size_t rule = 0; rule < descriptor.rules.size(); ++rule)
    for (const Outcome outcome : {Outcome::within_limits, Outcome::out_of_limits, Outcome::undecided})
      if ((descriptor.rules[rule].outcomes & outcome_bit(outcome) & ~shown[rule]) != 0)
        missing.push_back(std::string(descriptor.rules[rule].id) + ": " + std::string(name_of(outcome)));
  return missing;
}

}  // namespace ohmwright
