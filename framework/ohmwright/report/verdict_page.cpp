#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/labels.hpp>
#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t most_readings_shown = 12;  // of a longer series the first ones and the last
constexpr std::size_t first_readings_shown = 3;

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

  /// Above everything: what can hurt, in few words, or in full where that was asked for.
  void cautions() {
    const std::vector<std::string_view> ids = caution_ids(report_.descriptor, report_.readings);
    if (ids.empty()) return;
    const std::string title = say_(OHMWRIGHT_TEXT("Before you touch it"));
    page_ += style_.colour ? "\033[1;33m" + title + "\033[0m\n" : title + "\n";
    std::string brief;
    for (const std::string_view id : ids) {
      const CautionText caution = caution_text(report_.descriptor, id);
      if (report_.cautions_in_full)
        item(say_.in_domain(caution.domain, caution.english));
      else
        brief += say_.in_domain(caution.domain, caution.brief) + ". ";
    }
    const std::string law = say_(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list."));
    if (report_.cautions_in_full)
      item(law);
    else
      page_ += paragraph(brief + law + say_(OHMWRIGHT_TEXT(" (--cautions: in full)")), width_, "  ", "  ");
    page_ += '\n';
  }

  void headline() {
    const std::string label = outcome_label(report_.verdict.outcome, say_);
    const std::string kind = say_.in_domain(report_.descriptor.text_domain, report_.descriptor.title);
    const std::string line = report_.part_title.empty()
                                 ? say_(OHMWRIGHT_TEXT("{verdict}: {kind}"), {{"verdict", label}, {"kind", kind}})
                                 : say_(OHMWRIGHT_TEXT("{verdict}: {kind}, {part}"),
                                        {{"verdict", label}, {"kind", kind}, {"part", report_.part_title}});
    const std::string block = paragraph(line, width_);
    page_ += style_.colour ? std::string(colour_of(report_.verdict.outcome)) + block + "\033[0m" : block;
    if (report_.verdict.probability_within) page_ += paragraph(probability_sentence(), width_, "  ", "  ");
    if (report_.verdict.drawing) page_ += paragraph(drawing_sentence(), width_, "  ", "  ");
  }

  /// What the probability says beside the verdict: the two must not seem to contradict each other.
  std::string probability_sentence() const {
    const double within = *report_.verdict.probability_within;
    const FindingArgument probability{"probability", percent_text(within)};
    const FindingArgument needed{"needed", 100.0 * report_.confidence};
    const bool high = within >= report_.confidence;
    const bool low = within <= 1.0 - report_.confidence;
    switch (report_.verdict.outcome) {
      case Outcome::out_of_limits:
        if (!low)
          return say_(OHMWRIGHT_TEXT("Condemned by: {rules}. By its other readings the chance that it is within its "
                                     "limits would be {probability}."),
                      {{"rules", condemning_rules()}, probability});
        break;
      case Outcome::undecided:
        if (high)
          return say_(OHMWRIGHT_TEXT("What could be judged is within limits ({probability}), but that is not enough to "
                                     "pass it: see below."),
                      {probability});
        if (low)
          return say_(
              OHMWRIGHT_TEXT("So little is known that a good part and a bad one would look alike: the doubt is "
                             "wider than the limits."));
        return say_(
            OHMWRIGHT_TEXT("The chance that it is within its limits is {probability}; {needed} % would pass it."),
            {probability, needed});
      default:
        break;
    }
    return say_(OHMWRIGHT_TEXT("The chance that it is within its limits is {probability}."), {probability});
  }

  /// A probability that was drawn says so, with the seed that gives it again.
  std::string drawing_sentence() const {
    const Drawing& drawing = *report_.verdict.drawing;
    return say_(OHMWRIGHT_TEXT("Found by drawing {trials} cases (seed {seed}); good to {error}."),
                {{"trials", std::to_string(drawing.trials)},
                 {"seed", std::to_string(drawing.seed)},
                 {"error", AnyQuantity(Dimension::ratio, 2.0 * drawing.standard_error)}});
  }

  std::string condemning_rules() const {
    std::string titles;
    for (const Finding& finding : report_.verdict.findings) {
      if (finding.outcome != Outcome::out_of_limits) continue;
      const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
      titles += (titles.empty() ? "" : ", ") + say_.in_domain(report_.descriptor.text_domain, rule.title);
    }
    return titles;
  }

  std::string sentence_of(const Finding& finding) const {
    const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
    return say_.in_domain(report_.descriptor.text_domain, rule.texts[finding.text].english, view(finding.arguments));
  }

  /// The rules that spoke; and where the part is not decided, why one that had to speak could not.
  void reasons() {
    heading(OHMWRIGHT_TEXT("Why"));
    for (const Finding& finding : report_.verdict.findings)
      if (finding.outcome != Outcome::silent || is_missing(finding)) item(sentence_of(finding));
  }

  bool is_missing(const Finding& finding) const {
    return finding.outcome == Outcome::silent && report_.descriptor.rules[finding.rule].essential &&
           report_.verdict.outcome != Outcome::out_of_limits;
  }

  void readings() {
    heading(OHMWRIGHT_TEXT("Readings"));
    const std::size_t count = report_.readings.size();
    for (std::size_t i = 0; i < count; ++i) {
      if (count > most_readings_shown && i == first_readings_shown) {
        item(say_(OHMWRIGHT_TEXT("… {count} more …"), {{"count", std::to_string(count - first_readings_shown - 1)}}));
        i = count - 1;
      }
      item(reading_line(report_.readings[i], i));
    }
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
    std::string line =
        say_.in_domain(report_.descriptor.text_domain, measurand.title) + ": " + shown(reading, prepared);
    if (!reading.repeats.empty()) {
      line += say_(OHMWRIGHT_TEXT(", read {count} times, mean {mean}"),
                   {{"count", std::to_string(reading.repeats.size() + 1)},
                    {"mean", say_.quantity({measurand.dimension, prepared.displayed})}});
    }
    for (const Condition& condition : reading.conditions) line += "; " + condition_text(condition);
    return line + circumstances(reading);
  }

  /// Which range went over is an assumption unless it was said.
  std::string over_range(const Reading& reading, const PreparedReading& prepared) const {
    if (!(prepared.range_full_scale > 0.0)) return say_(OHMWRIGHT_TEXT("OL, on a range that was not said (--range)"));
    const Dimension dimension = report_.descriptor.measurands[prepared.measurand].dimension;
    const FindingArgument range{"range", AnyQuantity(dimension, prepared.range_full_scale)};
    if (reading.range || std::get<OverRange>(reading.observed).unit)
      return say_(OHMWRIGHT_TEXT("OL on the range to {range}"), {range});
    return say_(OHMWRIGHT_TEXT("OL, taken as past {range}, the meter's largest range (--range names another)"),
                {range});
  }

  std::string shown(const Reading& reading, const PreparedReading& prepared) const {
    if (std::holds_alternative<OverRange>(reading.observed)) return over_range(reading, prepared);
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

  /// The rules that had nothing to go on: their number is enough, unless asked for.
  void silent_rules() {
    std::size_t count = 0;
    for (const Finding& finding : report_.verdict.findings) {
      if (finding.outcome != Outcome::silent || is_missing(finding)) continue;
      if (report_.every_rule) {
        if (count == 0) heading(OHMWRIGHT_TEXT("Not checked"));
        const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
        item(say_(
            OHMWRIGHT_TEXT("{rule}: {why}"),
            {{"rule", say_.in_domain(report_.descriptor.text_domain, rule.title)}, {"why", sentence_of(finding)}}));
      }
      ++count;
    }
    if (count == 0 || report_.every_rule) return;
    page_ += '\n';
    page_ += paragraph(say_(OHMWRIGHT_TEXT("Other checks had nothing to go on: {count} (--every-rule says why)."),
                            {{"count", std::to_string(count)}}),
                       width_);
  }

  const VerdictReport& report_;
  const Sentences& say_;
  const PageStyle& style_;
  int width_;
  std::string page_;
};

}  // namespace

std::string verdict_page(const VerdictReport& report, const Sentences& sentences, const PageStyle& style) {
  return PageWriter(report, sentences, style).write();
}

}  // namespace ohmwright
