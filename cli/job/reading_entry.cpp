#include "job/reading_entry.hpp"

#include <algorithm>
#include <limits>
#include <span>
#include <variant>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/verdict_record.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/verdict_content.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cli {

namespace {

/// Bytes of a sentence that the book keeps; the figures behind it are in the records.
constexpr std::size_t longest_sentence = 1000;

/// Whether something was read that the rule speaks of: "earth-bond" speaks of earth_bond.
bool is_read(std::string_view rule, std::span<const Reading> readings) {
  std::string measurand(rule);
  std::replace(measurand.begin(), measurand.end(), '-', '_');
  return std::any_of(readings.begin(), readings.end(),
                     [&](const Reading& reading) { return reading.measurand == measurand; });
}

/// Whether it is of what tells if the part may be energised.
bool tells_of_safety(const Descriptor& descriptor, const Reading& reading) {
  return std::any_of(descriptor.rules.begin(), descriptor.rules.end(), [&](const RuleDescriptor& rule) {
    return tells_safe_to_energise(rule.id) && is_read(rule.id, std::span(&reading, 1));
  });
}

/// What was read, for people: "32.1 Ω", and of what tells whether it may be energised with how many volts.
std::string reading_for_people(const Descriptor& descriptor, std::span<const Reading> readings, const Sentences& say) {
  std::string all;
  for (const Reading& reading : readings) {
    const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
    locate::TakenReading taken{{}, reading.observed, {}};
    taken.range = reading.range;
    std::string text = shown_reading(taken, say);
    if (index != not_found && index != 0)
      text = say.in_domain(descriptor.text_domain, descriptor.measurands[index].title) + " " + text;
    for (const Condition& condition : reading.conditions)
      if (tells_of_safety(descriptor, reading)) text += " (" + say.stated(condition.value) + ")";
    all += (all.empty() ? "" : "; ") + text;
  }
  return kept_sentence(all);
}

/// The instruments that read it: the usual one is named only where it read anything.
std::string instruments_of(const VerdictReport& report, std::span<const Reading> readings) {
  std::string all;
  const bool has_read =
      std::any_of(readings.begin(), readings.end(), [](const Reading& reading) { return reading.meter.empty(); });
  if (has_read) all = report.meter_title;
  for (const OtherInstrument& other : report.other_instruments) all += (all.empty() ? "" : ", ") + other.title;
  return all;
}

/// The rule by which a kind says that what opens once and for good may be what was found open, and that from outside
/// nobody can tell: a link behind the two wires of a thermostat.
constexpr std::string_view rule_of_suspicion = "pair-suspected";

/// What was found of that which opens once and for good: the worst of what its rules said. Empty: they said nothing.
std::optional<Outcome> found_for_good(const PartCheck& check) {
  std::optional<Outcome> worst;
  for (const Finding& found : check.verdict().findings) {
    const RuleDescriptor& rule = check.kind().descriptor().rules[found.rule];
    if ((!rule.condemns_for_good && rule.id != rule_of_suspicion) || found.outcome == Outcome::silent) continue;
    const bool is_worse = found.outcome == Outcome::out_of_limits || worst == Outcome::within_limits;
    if (!worst || is_worse) worst = found.outcome;
  }
  return worst;
}

}  // namespace

std::string kept_sentence(const std::string& sentence) {
  std::string text = with_plain_spaces(sentence);
  if (text.size() <= longest_sentence) return text;
  std::size_t end = longest_sentence;
  while ((static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;  // not within a letter
  return text.substr(0, end);
}

job::ContentWriter safety_row(std::string_view rule, Outcome outcome) {
  return job::ContentWriter().text("rule", rule).text("outcome", name_of(outcome));
}

namespace {

/// What was shown of an insulation, or that it is more, at least [ohm]; nothing where it is a contact.
std::optional<double> at_least(const Finding& finding) {
  constexpr double coverage = 2.0;
  if (finding.measured) return finding.measured->value_in_si() - coverage * finding.measured_uncertainty.value_or(0.0);
  for (const FindingArgument& argument : finding.arguments)
    if (const auto* shown = std::get_if<AnyQuantity>(&argument.value); shown != nullptr && argument.name == "shown")
      return shown->value_in_si();
  return std::nullopt;
}

/// What an insulation that is within its limits says where there is no protective earth: class II asks more than class
/// I, and nothing more of a part for extra-low voltage (class III). `least_insulation` has the source.
Outcome without_earth(const PartCheck& check, const Finding& finding) {
  if (finding.outcome != Outcome::within_limits || !finding.limits.lower) return finding.outcome;
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const double least = least_insulation(EarthClass::two).value();
  const double asked = finding.limits.lower->value_in_si();
  if (asked >= least || asked <= least_insulation(EarthClass::three).value()) return Outcome::within_limits;
  if (finding.judged)
    return decide(conformance_of(*finding.judged, check.evidence().sources(), least, infinity),
                  JudgeSettings{}.confidence);
  return at_least(finding).value_or(0.0) < least ? Outcome::undecided : Outcome::within_limits;  // past its range
}

/// The same of a wire at low voltage: it is of class III, and an ohmmeter tells all that is asked of it.
Outcome at_low_voltage(const Finding& finding) {
  const bool does = at_least(finding).value_or(0.0) >= least_insulation(EarthClass::three).value();
  return does ? Outcome::within_limits : finding.outcome;
}

/// Whether a finding is of insulation or earth bond, and something of it was read.
bool is_of_safety_read(const PartCheck& check, const Finding& finding) {
  const RuleDescriptor& rule = check.kind().descriptor().rules[finding.rule];
  return tells_safe_to_energise(rule.id) && finding.outcome != Outcome::silent &&
         (finding.outcome != Outcome::undecided || is_read(rule.id, check.readings()));
}

/// What was read, has its limit, is undecided and holds nothing back is all that can be asked of it: a part for
/// extra-low voltage whose electronics bear no test with 500 V. One that was tested so has none.
Outcome outcome_of_safety(const Finding& finding, LiesAtLowVoltage low) {
  if (low.is_wire) return at_low_voltage(finding);
  const bool is_all_that_can_be_asked =
      finding.outcome == Outcome::undecided && !finding.holds_back && finding.limits.lower.has_value();
  return is_all_that_can_be_asked ? Outcome::within_limits : finding.outcome;
}

/// Whether nothing was read but what tells if the part may be energised, and all of that is within its limits, also
/// where there is no protective earth.
bool reads_good_insulation_alone(const PartCheck& check, LiesAtLowVoltage low) {
  const auto& readings = check.readings();
  const auto& findings = check.verdict().findings;
  const auto is_of_it = [&](const Finding& finding) { return is_of_safety_read(check, finding); };
  return std::all_of(readings.begin(), readings.end(),
                     [&](const Reading& reading) { return tells_of_safety(check.kind().descriptor(), reading); }) &&
         std::any_of(findings.begin(), findings.end(), is_of_it) &&
         std::all_of(findings.begin(), findings.end(), [&](const Finding& finding) {
           return !is_of_it(finding) || (outcome_of_safety(finding, low) == Outcome::within_limits &&
                                         without_earth(check, finding) != Outcome::out_of_limits);
         });
}

}  // namespace

std::string page_of_part_read(const PartCheck& check, const Arguments& arguments, LiesAtLowVoltage low,
                              bool was_read_good, const Sentences& say, const PageStyle& style) {
  const VerdictReport report = check.report(arguments);
  if (low.part || check.verdict().outcome != Outcome::undecided || !reads_good_insulation_alone(check, low))
    return verdict_page(report, say, style);
  const VerdictContent content = verdict_content(report, say);
  const Descriptor& descriptor = check.kind().descriptor();
  std::vector<std::string> reasons;
  for (const Finding& finding : check.verdict().findings)
    if (is_of_safety_read(check, finding))
      reasons.push_back(say.in_domain(
          descriptor.text_domain, descriptor.rules[finding.rule].texts[finding.text].english, view(finding.arguments)));
  PageLayout page(style);
  write_cautions(content.brief_cautions, content.cautions, report.cautions_in_full, say, page);
  page.coloured(say(OHMWRIGHT_TEXT("{part}: its insulation is within limits."), {{"part", check.part().title}}),
                colour_of(Outcome::within_limits));
  page.section(say(OHMWRIGHT_TEXT("Why")), reasons);
  page.section(say(OHMWRIGHT_TEXT("Readings")), content.readings);
  if (!was_read_good)
    page.section(say(OHMWRIGHT_TEXT("What to do next")),
                 {say(OHMWRIGHT_TEXT("Of the work that it does nothing was read with this, and nothing is said."))});
  return page.take();
}

void add_safety_of(const PartCheck& check, LiesAtLowVoltage low, std::vector<job::ContentWriter>& all) {
  for (const Finding& finding : check.verdict().findings) {
    if (!is_of_safety_read(check, finding)) continue;
    all.push_back(safety_row(check.kind().descriptor().rules[finding.rule].id, outcome_of_safety(finding, low)));
    const Outcome no_earth = without_earth(check, finding);
    if (!low.part && no_earth != finding.outcome) all.back().text("without_earth", name_of(no_earth));
    all.back().flag("low_voltage", low.part);
  }
}

void add_verdict(const PartCheck& check, std::span<const Reading> own, const Arguments& arguments, const Sentences& say,
                 job::ContentWriter& content) {
  const Descriptor& descriptor = check.kind().descriptor();
  const VerdictReport report = check.report(arguments);
  const VerdictContent words = verdict_content(report, say, Audience::who_is_handed_the_page);
  std::vector<std::string> reasons;
  std::vector<std::string> doubt;
  for (const std::string& reason : words.reasons) reasons.push_back(kept_sentence(reason));
  for (const DoubtShare& share : words.doubt)
    doubt.push_back(kept_sentence(share.label) + " " + percent_text(share.share));
  content.text("kind", descriptor.id)
      .text("ratings", check.part().name)
      .text("outcome", name_of(check.verdict().outcome))
      .text("headline", kept_sentence(words.headline))
      .texts("reasons", reasons)
      .texts("doubt", doubt)
      .text("meter", instruments_of(report, own))
      .json("readings", readings_record(own))
      .json("verdict", verdict_record(check.verdict(), descriptor, check.evidence().sources()))
      .text("reads", reading_for_people(descriptor, own, say));
  if (const std::optional<Outcome> for_good = found_for_good(check)) content.text("for_good", name_of(*for_good));
  if (check.verdict().probability_within) content.number("probability", *check.verdict().probability_within);
}

}  // namespace ohmwright::cli
