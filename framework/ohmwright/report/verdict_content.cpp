#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/labels.hpp>
#include <ohmwright/report/reading_circumstances.hpp>
#include <ohmwright/report/reading_lines.hpp>
#include <ohmwright/report/verdict_content.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>

namespace ohmwright {

namespace {

constexpr double smallest_share_shown = 0.005;

/// Whether what was read lies beyond what the rule allows, be it that the circumstances leave open whose fault it is.
bool reads_beyond_limits(const Finding& finding) {
  if (finding.outcome == Outcome::out_of_limits) return true;
  if (finding.outcome != Outcome::undecided || !finding.measured) return false;
  const double measured = finding.measured->value_in_si();
  return (finding.limits.lower && measured < finding.limits.lower->value_in_si()) ||
         (finding.limits.upper && measured > finding.limits.upper->value_in_si());
}

/// Writes down one verdict, section by section.
class ContentMaker {
 public:
  ContentMaker(const VerdictReport& report, const Sentences& sentences, Audience audience)
      : report_(report), say_(sentences), audience_(audience) {}

  VerdictContent make() {
    cautions();
    headline();
    set_aside();
    findings();
    content_.readings = reading_lines(report_, say_, audience_);
    doubt();
    for (const Advice& advice : report_.verdict.advice)
      content_.advice.push_back(in_kind(report_.descriptor.advice[advice.text].english, view(advice.arguments)));
    return std::move(content_);
  }

 private:
  std::string in_kind(std::string_view english, std::span<const FindingArgument> arguments = {}) const {
    return say_.in_domain(report_.descriptor.text_domain, english, arguments);
  }

  void cautions() {
    const std::vector<std::string_view> ids = caution_ids(report_.descriptor, report_.readings, report_.verdict.advice);
    if (ids.empty()) return;
    for (const std::string_view id : ids) {
      const CautionText caution = caution_text(report_.descriptor, id);
      content_.cautions.push_back(say_.in_domain(caution.domain, caution.english));
      content_.brief_cautions.push_back(say_.in_domain(caution.domain, caution.brief));
    }
    content_.cautions.push_back(say_(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list.")));
    content_.brief_cautions.push_back(say_(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list")));
  }

  void headline() {
    const FindingArgument label{"verdict", outcome_label(report_.verdict.outcome, say_)};
    const FindingArgument kind{"kind", in_kind(report_.descriptor.title)};
    if (!not_safe().empty())
      content_.headline = report_.part_title.empty()
                              ? say_(OHMWRIGHT_TEXT("{verdict}, DO NOT ENERGISE: {kind}"), {label, kind})
                              : say_(OHMWRIGHT_TEXT("{verdict}, DO NOT ENERGISE: {kind}, {part}"),
                                     {label, kind, {"part", report_.part_title}});
    else
      content_.headline = report_.part_title.empty() ? say_(OHMWRIGHT_TEXT("{verdict}: {kind}"), {label, kind})
                                                     : say_(OHMWRIGHT_TEXT("{verdict}: {kind}, {part}"),
                                                            {label, kind, {"part", report_.part_title}});
    if (report_.verdict.outcome == Outcome::within_limits && !not_proved_safe().empty())
      content_.chances.push_back(
          say_(OHMWRIGHT_TEXT("Not yet proved safe to energise: {rules}."), {{"rules", not_proved_safe()}}));
    if (holds_only_if_alone(report_))
      content_.chances.push_back(say_(OHMWRIGHT_TEXT("Holds only if a lead of it was off, which was not said.")));
    if (report_.verdict.probability_within) content_.chances.push_back(probability_sentence());
    if (report_.verdict.drawing) content_.chances.push_back(drawing_sentence());
  }

  /// Whether every judged value lies within its limits: then a small chance speaks of the doubt and not of the part,
  /// and no such value would condemn it.
  bool lies_within() const {
    const auto& all = report_.verdict.findings;
    return std::none_of(all.begin(), all.end(), [](const Finding& finding) {
      return finding.judged &&
             (finding.judged->value() < finding.judged_lower || finding.judged->value() > finding.judged_upper);
    });
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
        if (!not_safe().empty())
          return say_(OHMWRIGHT_TEXT("As it was read it is not safe to energise: {rules}. What else was read does not "
                                     "make up for that."),
                      {{"rules", not_safe()}});
        if (high)
          return say_(OHMWRIGHT_TEXT("What could be judged is within limits ({probability}), but that is not enough to "
                                     "pass it: see below."),
                      {probability});
        if (low || (within < 0.5 && lies_within()))
          return say_(
              OHMWRIGHT_TEXT("So little is known that a good part and a bad one would look alike: the doubt is "
                             "wider than the limits."));
        if (within < 0.5)
          return say_(OHMWRIGHT_TEXT("The chance that it is within its limits is only {probability}; {least} % or less "
                                     "would condemn it."),
                      {probability, {"least", std::round(1000.0 * (1.0 - report_.confidence)) / 10.0}});
        return say_(
            OHMWRIGHT_TEXT("The chance that it is within its limits is {probability}; a pass needs {needed} %."),
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
    return titles_where(
        [](const Finding& finding, const RuleDescriptor&) { return finding.outcome == Outcome::out_of_limits; });
  }

  std::string not_proved_safe() const {
    return titles_where([](const Finding& finding, const RuleDescriptor& rule) {
      return finding.outcome == Outcome::undecided && tells_safe_to_energise(rule.id);
    });
  }

  /// Rules that tell whether it may be energised, and by whose readings it may not, proved or not yet.
  std::string not_safe() const {
    return titles_where([](const Finding& finding, const RuleDescriptor& rule) {
      return tells_safe_to_energise(rule.id) && reads_beyond_limits(finding);
    });
  }

  template <class Predicate>
  std::string titles_where(Predicate holds) const {
    std::string titles;
    for (const Finding& finding : report_.verdict.findings) {
      const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
      if (holds(finding, rule)) titles += (titles.empty() ? "" : ", ") + in_kind(rule.title);
    }
    return titles;
  }

  std::string sentence_of(const Finding& finding) const {
    const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
    return in_kind(rule.texts[finding.text].english, view(finding.arguments));
  }

  /// What no rule saw, since it contradicts itself.
  void set_aside() {
    const std::vector<SwappedPair> pairs = set_aside_pairs(report_);
    for (const SwappedPair& pair : pairs) add_reason(set_aside_sentence(report_, pair, say_));
    if (!pairs.empty())
      content_.advice.push_back(
          say_(OHMWRIGHT_TEXT("Unplug it, prove the points dead, lift a lead, clip the probes onto clean metal, and "
                              "read it both ways again. Replace nothing on these ohms.")));
  }

  /// The rules that spoke; where the part is not decided, why one that had to speak could not; and the silent ones.
  void findings() {
    for (const Finding& finding : report_.verdict.findings) {
      if (finding.outcome != Outcome::silent || is_missing(finding)) {
        add_reason(sentence_of(finding));
        continue;
      }
      const RuleDescriptor& rule = report_.descriptor.rules[finding.rule];
      content_.silent.push_back(
          say_(OHMWRIGHT_TEXT("{rule}: {why}"), {{"rule", in_kind(rule.title)}, {"why", sentence_of(finding)}}));
    }
  }

  /// Two rules that say the same say it once.
  void add_reason(std::string sentence) {
    const auto& said = content_.reasons;
    if (std::find(said.begin(), said.end(), sentence) == said.end()) content_.reasons.push_back(std::move(sentence));
  }

  bool is_missing(const Finding& finding) const {
    // Beside readings that were set aside it could only say that nothing was read.
    return finding.outcome == Outcome::silent && report_.descriptor.rules[finding.rule].essential &&
           report_.verdict.outcome != Outcome::out_of_limits && set_aside_pairs(report_).empty();
  }

  void doubt() {
    for (const BudgetShare& share : merged_budget()) {
      if (share.share < smallest_share_shown) continue;
      const ErrorSource& source = report_.evidence.sources()[share.source];
      content_.doubt.push_back({source_label(source, report_.descriptor, say_), share.share});
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

  const VerdictReport& report_;
  const Sentences& say_;
  Audience audience_;
  VerdictContent content_;
};

}  // namespace

VerdictContent verdict_content(const VerdictReport& report, const Sentences& sentences, Audience audience) {
  return ContentMaker(report, sentences, audience).make();
}

}  // namespace ohmwright
