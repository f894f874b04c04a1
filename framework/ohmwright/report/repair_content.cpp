#include <algorithm>
#include <array>
#include <cstdlib>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_words.hpp>
#include <ohmwright/report/repair_report.hpp>

namespace ohmwright {

namespace {

using cycles::FigureChange;
using cycles::LogFigure;
using cycles::RepairStand;

constexpr double second_per_hour = 3600.0;
constexpr double joule_per_watt_hour = 3600.0;

/// How a figure is written: its unit, and what the SI value is divided by.
struct FigureWords {
  std::string_view id;
  std::string_view english;
  std::string_view unit;
  double per = 1.0;
  double zero = 0.0;  ///< SI value that is written as 0
  int decimals = 0;
  std::string_view unit_of_change = {};  ///< where a difference has another unit than the figure
};

constexpr std::array figure_words{
    FigureWords{"defrosts_a_day", OHMWRIGHT_TEXT("Defrosts a day"), "", 1.0, 0.0, 1},
    FigureWords{"heating", OHMWRIGHT_TEXT("Heating, each"), "min", 60.0, 0.0, 1},
    FigureWords{"heater_power", OHMWRIGHT_TEXT("Power while heating"), "W"},
    FigureWords{"heater_energy", OHMWRIGHT_TEXT("Energy of a heating"), "Wh", joule_per_watt_hour},
    FigureWords{"plateau", OHMWRIGHT_TEXT("At the melting point"), "min", 60.0, 0.0, 1},
    FigureWords{"peak", OHMWRIGHT_TEXT("Coil's warmest"), "°C", 1.0, cycles::melting_point_kelvin, 1, "K"},
    FigureWords{"frost", OHMWRIGHT_TEXT("Frost of a defrost"), "g", 0.001},
    FigureWords{"drip", OHMWRIGHT_TEXT("Drip time"), "min", 60.0, 0.0, 1},
    FigureWords{"recovery", OHMWRIGHT_TEXT("Run after a defrost"), "min", 60.0},
    FigureWords{"interval", OHMWRIGHT_TEXT("Interval by the clock"), "h", second_per_hour, 0.0, 1},
    FigureWords{"running_interval", OHMWRIGHT_TEXT("Interval in run time"), "h", second_per_hour, 0.0, 1},
    FigureWords{"run_share", OHMWRIGHT_TEXT("Run share"), "%", 0.01, 0.0, 0, OHMWRIGHT_TEXT("points")},
    FigureWords{"compressor_run", OHMWRIGHT_TEXT("Compressor's run"), "min", 60.0},
    FigureWords{"cabinet", OHMWRIGHT_TEXT("Cabinet, mean"), "°C", 1.0, cycles::melting_point_kelvin, 1, "K"},
    FigureWords{"mean_power", OHMWRIGHT_TEXT("Mean power"), "W"},
};

struct UnprovedWords {
  std::string_view id;
  std::string_view english;
};

constexpr std::array unproved_words{
    UnprovedWords{"load-no-longer-logged",
                  OHMWRIGHT_TEXT("The log after holds no power or current: whether the heater draws is not shown.")},
    UnprovedWords{"coil-no-longer-logged",
                  OHMWRIGHT_TEXT("The log after holds no temperature of the coil: whether it clears is not shown.")},
    UnprovedWords{"cabinet-no-longer-logged", OHMWRIGHT_TEXT("The log after holds no temperature of the cabinet.")},
    UnprovedWords{"coil-not-logged",
                  OHMWRIGHT_TEXT("Neither log holds the temperature of the coil: that the frost melts is not shown.")},
    UnprovedWords{"few-defrosts-after",
                  OHMWRIGHT_TEXT("{count} whole defrosts in {span}: log until there are two, so that it is seen to "
                                 "start again by itself.")},
    UnprovedWords{"gaps-after", OHMWRIGHT_TEXT("Gaps could hide a defrost in {share} of the log after.")},
    UnprovedWords{"heater-power-not-judged",
                  OHMWRIGHT_TEXT("Whether the heater draws what it should: half a heater melts, too, and takes longer. "
                                 "Its ratings tell (--appliance, or --ratings heater=...).")},
    UnprovedWords{"heater-power-differs",
                  OHMWRIGHT_TEXT("The heater draws more or less than before, by more than the line explains: another "
                                 "appliance, another heater, or only a part of one? Its ratings tell (--appliance, or "
                                 "--ratings heater=...).")},
    UnprovedWords{
        "heat-draws-like-compressor-after",
        OHMWRIGHT_TEXT("In {count} defrosts of the log after the load was about the running compressor's: that "
                       "the coil was warmed is shown, that the heater did it is not. Clamp the heater's own "
                       "lead, or give its ratings.")},
    UnprovedWords{
        "stood-after",
        OHMWRIGHT_TEXT("In the log after it stood still for {length}, or the meter lost it: log on once it is "
                       "settled which.")},
    UnprovedWords{"unit-in-doubt-before",
                  OHMWRIGHT_TEXT("In the log before the unit of a column is in doubt: name it (--column).")},
    UnprovedWords{"column-may-be-coil",
                  OHMWRIGHT_TEXT("A column of temperatures below freezing was not read: say whether it is the coil's "
                                 "(--column).")},
    UnprovedWords{"unit-in-doubt-after",
                  OHMWRIGHT_TEXT("In the log after the unit of a column is in doubt: name it (--column).")},
    UnprovedWords{"time-in-doubt",
                  OHMWRIGHT_TEXT("The times of one of the two logs are in doubt: read it alone (ohmwright log FILE), "
                                 "settle what it asks, and compare again.")},
    UnprovedWords{"column-never-moved-after",
                  OHMWRIGHT_TEXT("In the log after a column did not move for long: a dead logger or a pulled plug?")},
    UnprovedWords{"column-has-holes-after",
                  OHMWRIGHT_TEXT("In the log after {quantity} was not logged for {share} of the time.")},
    UnprovedWords{"frost-load-not-settled",
                  OHMWRIGHT_TEXT("Whether the frost grows again takes some days to see: log on, or look at the coil "
                                 "in a week.")},
};

const FigureWords* words_of(std::string_view id) {
  const auto found =
      std::find_if(figure_words.begin(), figure_words.end(), [id](const FigureWords& one) { return one.id == id; });
  return found == figure_words.end() ? nullptr : &*found;
}

std::string with_unit(const std::string& number, std::string_view unit) {
  return unit.empty() ? number : number + std::string(unbroken_space) + std::string(unit);
}

std::string figure_text(const FigureWords& words, const std::optional<LogFigure>& figure) {
  if (!figure) return "-";
  return with_unit(rounded((figure->mean - words.zero) / words.per, words.decimals), words.unit);
}

/// "+12 min", or that it is as before, or that nobody can tell.
std::string change_text(const FigureWords& words, const FigureChange& change, const Sentences& say) {
  if (!change.before || !change.after) return {};
  const double by = (change.after->mean - change.before->mean) / words.per;
  const std::string amount = rounded(by, words.decimals);
  if (std::strtod(amount.c_str(), nullptr) == 0.0) return say(OHMWRIGHT_TEXT("as before"));
  const std::string unit = words.unit_of_change.empty() ? std::string(words.unit) : say(words.unit_of_change);
  std::string shown = with_unit((by > 0.0 ? "+" : "") + amount, unit);
  if (!change.probability_greater) return shown;
  const double sure = std::max(*change.probability_greater, 1.0 - *change.probability_greater);
  constexpr double two_sided = 0.975;  // of 95 %
  return sure >= two_sided ? shown : say(OHMWRIGHT_TEXT("as before"));
}

std::string stand_text(const cycles::RuleChange& change, const Sentences& say) {
  const FindingArgument title{"title", log_rule_title(change.rule, say)};
  const FindingArgument before{"before", log_verdict_text(change.before, say)};
  const FindingArgument after{"after", log_verdict_text(change.after, say)};
  switch (change.stand) {
    case RepairStand::gone:
      return say(OHMWRIGHT_TEXT("Gone. {title}. Before: {before} After: {after}"), {title, before, after});
    case RepairStand::still_there:
      return say(OHMWRIGHT_TEXT("Still there. {title}. After: {after}"), {title, after});
    case RepairStand::appeared:
      return say(OHMWRIGHT_TEXT("New. {title}. Before: {before} After: {after}"), {title, before, after});
    case RepairStand::unproved:
      return say(OHMWRIGHT_TEXT("Not proved. {title}. Before: {before} After: {after}"), {title, before, after});
    case RepairStand::fine:
      break;
  }
  return {};
}

/// Whether the log before leaves something to be settled, or a unit of either is in doubt: no word on "no fault" yet.
bool leaves_a_doubt(const cycles::RepairComparison& comparison) {
  const bool is_asked = std::any_of(comparison.rules.begin(), comparison.rules.end(),
                                    [](const cycles::RuleChange& one) { return one.before.asks || one.after.asks; });
  return is_asked || cycles::find_finding(comparison.unproved, "column-may-be-coil") != nullptr ||
         cycles::find_finding(comparison.unproved, "unit-in-doubt-before") != nullptr ||
         cycles::find_finding(comparison.unproved, "unit-in-doubt-after") != nullptr;
}

std::string headline(const RepairReport& report, const Sentences& say) {
  switch (report.comparison.outcome) {
    case Outcome::within_limits:
      return say(OHMWRIGHT_TEXT("THE FAULT IS GONE"));
    case Outcome::out_of_limits:
      return report.comparison.fault_before ? say(OHMWRIGHT_TEXT("THERE IS STILL A FAULT"))
                                            : say(OHMWRIGHT_TEXT("A FAULT CAME THAT WAS NOT THERE BEFORE"));
    default:
      return report.comparison.fault_before || leaves_a_doubt(report.comparison)
                 ? say(OHMWRIGHT_TEXT("NOT PROVED YET"))
                 : say(OHMWRIGHT_TEXT("NO FAULT IN EITHER LOG: nothing to prove"));
  }
}

std::string log_line(std::string_view english, const cycles::LogReader& reader, const cycles::LogAnalysis& log,
                     const Sentences& say) {
  return say(english, {{"rows", std::to_string(reader.rows())},
                       {"span", duration_text(log.coverage.span_second)},
                       {"count", std::to_string(log.defrost_count)}});
}

}  // namespace

RepairContent repair_content(const RepairReport& report, const Sentences& say) {
  RepairContent content;
  content.headline = headline(report, say);
  if (report.comparison.outcome != Outcome::within_limits) content.brief_cautions = log_brief_cautions(say);
  for (const RepairStand stand :
       {RepairStand::still_there, RepairStand::appeared, RepairStand::unproved, RepairStand::gone})
    for (const cycles::RuleChange& change : report.comparison.rules)
      if (change.stand == stand) content.faults.push_back(stand_text(change, say));
  content.figures.push_back({say(OHMWRIGHT_TEXT("figure")), say(OHMWRIGHT_TEXT("before")), say(OHMWRIGHT_TEXT("after")),
                             say(OHMWRIGHT_TEXT("change"))});
  for (const FigureChange& change : report.comparison.figures)
    if (const FigureWords* words = words_of(change.id))
      content.figures.push_back({say(words->english), figure_text(*words, change.before),
                                 figure_text(*words, change.after), change_text(*words, change, say)});
  for (const cycles::LogFinding& finding : report.comparison.unproved)
    for (const UnprovedWords& words : unproved_words)
      if (words.id == finding.id)
        content.unproved.push_back(
            say(words.english, {{"count", argument_text(finding, "count")},
                                {"span", duration_text(finding.number("span_second").value_or(0.0))},
                                {"length", duration_text(finding.number("second").value_or(0.0))},
                                {"quantity", finding.text("quantity")},
                                {"share", percent_text(finding.number("share").value_or(0.0))}}));
  const auto start_before = report.before_reader.start_second();
  const auto start_after = report.after_reader.start_second();
  if (start_before && start_after && *start_after < *start_before)
    content.unproved.push_back(say(OHMWRIGHT_TEXT("The log after begins before the other one: were they swapped?")));
  if (content.unproved.empty())
    content.unproved.push_back(
        say(OHMWRIGHT_TEXT("Nothing of what these logs can show. The rest is for the eye: a coil "
                           "clear of ice after a defrost, a dry floor.")));
  content.logs = {log_line(OHMWRIGHT_TEXT("Before: {rows} rows over {span}, {count} defrosts"), report.before_reader,
                           report.before, say),
                  log_line(OHMWRIGHT_TEXT("After: {rows} rows over {span}, {count} defrosts"), report.after_reader,
                           report.after, say)};
  return content;
}

}  // namespace ohmwright
