#include <cmath>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/batch_report.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright {

namespace {

using batch::OutcomeCounts;
using batch::Population;
using batch::RuleSummary;

constexpr std::size_t most_lots_shown = 40;

std::vector<std::string> counts_row(std::string name, const OutcomeCounts& counts) {
  return {std::move(name), std::to_string(counts.within), std::to_string(counts.out), std::to_string(counts.undecided)};
}

std::vector<std::string> counts_head(std::string first, const Sentences& say) {
  return {std::move(first), say(OHMWRIGHT_TEXT("in spec")), say(OHMWRIGHT_TEXT("out of spec")),
          say(OHMWRIGHT_TEXT("can't tell"))};
}

/// The rule by which lots are compared: of those with two limits the one that spoke most.
const std::string* rule_to_compare(const Population& all) {
  const std::string* chosen = nullptr;
  std::uint64_t most = 1;
  for (const auto& [name, rule] : all.rules) {
    if (rule.places.count <= most) continue;
    most = rule.places.count;
    chosen = &name;
  }
  return chosen;
}

const RuleSummary& rule_of(const Population& population, const std::string& rule) {
  static const RuleSummary nothing;
  const auto found = population.rules.find(rule);
  return found == population.rules.end() ? nothing : found->second;
}

/// "0.13 of the way from the middle to a limit higher"
std::string distance_text(double difference, const Sentences& say) {
  const std::string distance = fmt::format("{:.2f}", std::abs(difference));
  return difference < 0.0
             ? say(OHMWRIGHT_TEXT("{distance} of the way from the middle to a limit lower"), {{"distance", distance}})
             : say(OHMWRIGHT_TEXT("{distance} of the way from the middle to a limit higher"), {{"distance", distance}});
}

/// What is said of the lots that lie elsewhere than the others.
std::vector<std::string> drift_texts(const batch::LotComparison& comparison, const Sentences& say) {
  std::vector<std::string> texts;
  if (comparison.two_alone) {
    const auto& [name, drift] = *comparison.lots.begin();
    texts.push_back(say(OHMWRIGHT_TEXT("The two lots differ: the values of lot {lot} lie {distance} than those of lot "
                                       "{other}. Which of them is as it should be two lots cannot tell."),
                        {{"lot", name},
                         {"distance", distance_text(drift.difference, say)},
                         {"other", comparison.lots.rbegin()->first}}));
    return texts;
  }
  for (const auto& [name, drift] : comparison.lots)
    if (drift.is_drift)
      texts.push_back(say(
          OHMWRIGHT_TEXT("Lot {lot} has drifted: its values lie {distance} than those of the usual lot (the median)."),
          {{"lot", name}, {"distance", distance_text(drift.difference, say)}}));
  return texts;
}

void add_lots(const batch::KindSummary& kind, const Sentences& say, PageLayout& page) {
  const std::string* rule = rule_to_compare(kind.all);
  std::vector<std::vector<std::string>> table{counts_head(say(OHMWRIGHT_TEXT("lot")), say)};
  table[0].push_back(say(OHMWRIGHT_TEXT("mean place")));
  table[0].push_back(say(OHMWRIGHT_TEXT("against the usual lot")));
  const batch::LotComparison comparison = rule == nullptr ? batch::LotComparison{} : compare_lots(kind, *rule);
  for (const auto& [name, population] : kind.lots) {
    std::vector<std::string> row = counts_row(name, population.verdicts);
    const auto& places = rule == nullptr ? batch::Places{} : rule_of(population, *rule).places;
    row.push_back(places.count == 0 ? "" : fmt::format("{:+.2f}", places.mean()));
    const auto drift = comparison.lots.find(name);
    row.push_back(drift == comparison.lots.end()
                      ? ""
                      : fmt::format("{:+.3f} ± {:.3f}", drift->second.difference, drift->second.standard_error));
    if (table.size() <= most_lots_shown) table.push_back(std::move(row));
  }
  if (kind.lots.empty()) return;
  page.heading(say(OHMWRIGHT_TEXT("Lots")));
  page.table(table);
  if (kind.lots.size() > most_lots_shown)
    page.block(say(OHMWRIGHT_TEXT("{count} more lots are in the summary file (--summary)."),
                   {{"count", std::to_string(kind.lots.size() - most_lots_shown)}}),
               "  ");
  if (rule != nullptr)
    page.block(
        say(OHMWRIGHT_TEXT("A place is where a value lies between its limits, by the rule {rule}: -1 at the lower, "
                           "0 in the middle, +1 at the upper one."),
            {{"rule", *rule}}),
        "  ");
  for (const std::string& text : drift_texts(comparison, say)) page.item(text);
}

void add_rules(const Population& all, const Sentences& say, PageLayout& page) {
  std::vector<std::vector<std::string>> table{counts_head(say(OHMWRIGHT_TEXT("rule")), say)};
  for (const auto& [name, rule] : all.rules) table.push_back(counts_row(name, rule.outcomes));
  page.heading(say(OHMWRIGHT_TEXT("What each rule found")));
  page.table(table);
}

}  // namespace

std::string batch_page(const batch::Summary& summary, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.block(say(OHMWRIGHT_TEXT("Parts judged: {judged}. Lines refused: {refused}."),
                 {{"judged", std::to_string(summary.judged())}, {"refused", std::to_string(summary.refused)}}));
  if (summary.cut_short > 0)
    page.block(say(OHMWRIGHT_TEXT("Compressed files that are cut or damaged: {count}. What follows there is lost; the "
                                  "records name the lines."),
                   {{"count", std::to_string(summary.cut_short)}}));
  for (const auto& [name, kind] : summary.kinds) {
    page.blank_line();
    page.table({counts_head(say(OHMWRIGHT_TEXT("kind")), say), counts_row(name, kind.all.verdicts)});
    add_rules(kind.all, say, page);
    add_lots(kind, say, page);
  }
  page.blank_line();
  page.block(
      say(OHMWRIGHT_TEXT("A part that is not in spec stays out of service until a person has looked at it: ohmwright "
                         "check shows the cautions for that. Local codes and licensed practice come first.")));
  return page.take();
}

}  // namespace ohmwright
