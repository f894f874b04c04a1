#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/labels.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

constexpr int widest_page = 100;  // longer lines are hard to read, however wide the terminal is

std::string_view colour_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::within_limits:
      return "\033[1;32m";
    case Outcome::out_of_limits:
      return "\033[1;31m";
    default:
      return "\033[1;33m";
  }
}

/// Writes one page, section by section.
class PageWriter {
 public:
  PageWriter(const VerdictReport& report, const Sentences& sentences, const PageStyle& style)
      : report_(report), say_(sentences), style_(style), width_(std::clamp(style.width, 20, widest_page)) {}

  std::string write() {
    cautions();
    headline();
    reasons();
    readings();
    doubt();
    advice();
    silent_rules();
    return std::move(page_);
  }

 private:
  void heading(std::string_view english) {
    page_ += '\n';
    const std::string text = say_(english);
    page_ += style_.colour ? "\033[1m" + text + "\033[0m\n" : text + "\n";
  }
  void item(std::string_view text) { page_ += paragraph(text, width_, "  - ", "    "); }

  void cautions() {
    const std::vector<std::string_view> ids = caution_ids(report_.descriptor, report_.readings);
    if (ids.empty()) return;
    const std::string title = say_(OHMWRIGHT_TEXT("Before you touch it"));
    page_ += style_.colour ? "\033[1;33m" + title + "\033[0m\n" : title + "\n";
    for (const std::string_view id : ids) {
      const CautionText caution = caution_text(report_.descriptor, id);
      item(say_.in_domain(caution.domain, caution.english));
    }
    item(say_(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list.")));
    page_ += '\n';
  }

  void headline() {
    const std::string label = outcome_label(report_.verdict.outcome, say_);
    const std::string kind = say_.in_domain(report_.descriptor.text_domain, report_.descriptor.title);
    std::string line = label + ": " + kind;
    if (!report_.part_title.empty()) line += ", " + report_.part_title;
    const std::string block = paragraph(line, width_);
    page_ += style_.colour ? std::string(colour_of(report_.verdict.outcome)) + block + "\033[0m" : block;
    if (probability_tells()) page_ += paragraph(probability_sentence(), width_, "  ", "  ");
  }

  /// A chance that would pass the part says nothing beside another verdict: something else condemned it, or an
  /// essential rule is still open.
  bool probability_tells() const {
    const std::optional<double>& probability = report_.verdict.probability_within;
    return probability && (report_.verdict.outcome == Outcome::within_limits || *probability < report_.confidence);
  }

  std::string probability_sentence() const {
    return say_(
        OHMWRIGHT_TEXT("The chance that it is within its limits is {probability} (in spec from {needed}, out of "
                       "spec up to {condemned})."),
        {{"probability", percent_text(*report_.verdict.probability_within)},
         {"needed", percent_text(report_.confidence)},
         {"condemned", percent_text(1.0 - report_.confidence)}});
  }

  std::string sentence_of(const Finding& finding) const {
    const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
    return say_.in_domain(report_.descriptor.text_domain, rule.texts[finding.text].english, view(finding.arguments));
  }

  void reasons() {
    heading(OHMWRIGHT_TEXT("Why"));
    for (const Finding& finding : report_.verdict.findings)
      if (finding.outcome != Outcome::silent) item(sentence_of(finding));
  }

  void readings() {
    heading(OHMWRIGHT_TEXT("Readings"));
    for (std::size_t i = 0; i < report_.readings.size(); ++i) item(reading_line(report_.readings[i], i));
    if (skin_matters())
      item(say_(OHMWRIGHT_TEXT("above 10 kΩ keep your fingers off the probe tips: skin lies beside the part")));
    item(say_(report_.meter_assumed ? OHMWRIGHT_TEXT("meter: {meter} (assumed; name yours with --meter)")
                                    : OHMWRIGHT_TEXT("meter: {meter}"),
              {{"meter", report_.meter_title}}));
  }

  /// Skin is some hundred kilohms to a few megohms: from 10 kΩ on it spoils a reading (common practice, no source).
  bool skin_matters() const {
    constexpr double least_ohms = 10e3;
    const auto prepared = report_.evidence.readings();
    return std::any_of(prepared.begin(), prepared.end(), [this](const PreparedReading& reading) {
      const bool ohms = report_.descriptor.measurands[reading.measurand].dimension == Dimension::resistance;
      return ohms && reading.shown == Shown::value && reading.displayed >= least_ohms;
    });
  }

  std::string reading_line(const Reading& reading, std::size_t index) const {
    const PreparedReading& prepared = report_.evidence.readings()[index];
    const MeasurandDescriptor& measurand = report_.descriptor.measurands[prepared.measurand];
    std::string line = say_.in_domain(report_.descriptor.text_domain, measurand.title) + ": " + shown(reading);
    if (!reading.repeats.empty()) {
      line += say_(OHMWRIGHT_TEXT(", read {count} times, mean {mean}"),
                   {{"count", std::to_string(reading.repeats.size() + 1)},
                    {"mean", say_.quantity({measurand.dimension, prepared.displayed})}});
    }
    for (const Condition& condition : reading.conditions) line += "; " + condition_text(condition);
    return line + circumstances(reading);
  }

  std::string shown(const Reading& reading) const {
    if (std::holds_alternative<OverRange>(reading.observed)) return say_(OHMWRIGHT_TEXT("OL (over range)"));
    if (const auto* contact = std::get_if<ContactState>(&reading.observed))
      return *contact == ContactState::open ? say_(OHMWRIGHT_TEXT("open")) : say_(OHMWRIGHT_TEXT("closed"));
    const auto& stated = std::get<StatedValue>(reading.observed);
    std::string text = say_.stated(stated);
    if (stated.unit_assumed) text += say_(OHMWRIGHT_TEXT(" (unit assumed)"));
    return text;
  }

  std::string condition_text(const Condition& condition) const {
    const std::uint16_t index = index_of(report_.descriptor.conditions, condition.id);
    const ConditionDescriptor& descriptor = report_.descriptor.conditions[index];
    std::string text =
        say_.in_domain(report_.descriptor.text_domain, descriptor.title) + " " + say_.stated(condition.value);
    if (condition.uncertainty_assumed) text += say_(OHMWRIGHT_TEXT(" (doubt assumed)"));
    return text;
  }

  std::string circumstances(const Reading& reading) const {
    std::string text;
    const auto add = [&](std::string_view english) { text += ", " + say_(english); };
    if (reading.connection == Connection::lead_off) add(OHMWRIGHT_TEXT("lead off"));
    if (reading.connection == Connection::in_circuit) add(OHMWRIGHT_TEXT("in circuit"));
    if (reading.moisture == Moisture::wet) add(OHMWRIGHT_TEXT("wet"));
    if (reading.moisture == Moisture::dry) add(OHMWRIGHT_TEXT("dried"));
    if (reading.supply == Supply::live) add(OHMWRIGHT_TEXT("live"));
    return text;
  }

  void doubt() {
    if (report_.verdict.budget.empty()) return;
    heading(OHMWRIGHT_TEXT("Where the doubt comes from"));
    for (const BudgetShare& share : merged_budget()) {
      if (share.share < 0.005) continue;
      const ErrorSource& source = report_.evidence.sources()[share.source];
      page_ += bar_line(source_label(source, report_.descriptor, say_), share.share);
    }
  }

  /// Sources of one sort (the counts of three readings) as one line.
  std::vector<BudgetShare> merged_budget() const {
    std::vector<BudgetShare> merged;
    for (const BudgetShare& share : report_.verdict.budget) {
      const std::string& id = report_.evidence.sources()[share.source].id;
      const auto same = std::find_if(merged.begin(), merged.end(), [&](const BudgetShare& other) {
        return report_.evidence.sources()[other.source].id == id;
      });
      if (same == merged.end())
        merged.push_back(share);
      else
        same->share += share.share;
    }
    std::stable_sort(merged.begin(), merged.end(),
                     [](const BudgetShare& a, const BudgetShare& b) { return a.share > b.share; });
    return merged;
  }

  std::string bar_line(const std::string& label, double share) const {
    constexpr int longest_bar = 20;
    const int bar_width = std::min(longest_bar, width_ / 4);
    const int cells = std::max(1, static_cast<int>(std::lround(share * bar_width)));
    std::string bar;
    for (int i = 0; i < bar_width; ++i) bar += i < cells ? "█" : "·";
    const std::string percent = std::to_string(std::lround(share * 100.0)) + " %";
    const std::string figures =
        "  " + bar + " " + std::string(5 - std::min<std::size_t>(5, percent.size()), ' ') + percent + "  ";
    return paragraph(label, width_, figures, std::string(static_cast<std::size_t>(columns_of(figures)), ' '));
  }

  void advice() {
    if (report_.verdict.advice.empty()) return;
    heading(OHMWRIGHT_TEXT("What to do next"));
    for (const Advice& advice : report_.verdict.advice)
      item(say_.in_domain(report_.descriptor.text_domain, report_.descriptor.advice[advice.text].english,
                          view(advice.arguments)));
  }

  /// Why an essential rule said nothing is part of the answer; of the others the names are enough, unless asked for.
  void silent_rules() {
    std::string others;
    bool any = false;
    for (const Finding& finding : report_.verdict.findings) {
      if (finding.outcome != Outcome::silent) continue;
      if (!any) heading(OHMWRIGHT_TEXT("Not checked"));
      any = true;
      const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
      const std::string title = say_.in_domain(report_.descriptor.text_domain, rule.title);
      if (rule.essential || report_.every_rule)
        item(title + ": " + sentence_of(finding));
      else
        others += (others.empty() ? "" : ", ") + title;
    }
    if (others.empty()) return;
    item(say_(OHMWRIGHT_TEXT("{rules} (--every-rule says why)"), {{"rules", others}}));
  }

  const VerdictReport& report_;
  const Sentences& say_;
  const PageStyle& style_;
  int width_;
  std::string page_;
};

}  // namespace

std::vector<std::string_view> caution_ids(const Descriptor& descriptor, std::span<const Reading> readings) {
  std::vector<std::string_view> ids;
  const auto add = [&ids](std::string_view id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  };
  for (const Reading& reading : readings) {
    if (reading.supply == Supply::live) add("live-measurement");
    const auto procedure =
        std::find_if(descriptor.procedures.begin(), descriptor.procedures.end(),
                     [&](const ProcedureDescriptor& candidate) { return candidate.measurand == reading.measurand; });
    if (procedure != descriptor.procedures.end())
      std::for_each(procedure->cautions.begin(), procedure->cautions.end(), add);
    if (reading.moisture == Moisture::wet) add("water-and-mains");
  }
  return ids;
}

CautionText caution_text(const Descriptor& descriptor, std::string_view id) {
  if (const Caution* caution = caution_named(id)) return {framework_text_domain, caution->english};
  const std::uint16_t own = index_of(descriptor.cautions, id);
  if (own != not_found) return {descriptor.text_domain, descriptor.cautions[own].english};
  return {framework_text_domain, id};
}

std::string verdict_page(const VerdictReport& report, const Sentences& sentences, const PageStyle& style) {
  return PageWriter(report, sentences, style).write();
}

}  // namespace ohmwright
