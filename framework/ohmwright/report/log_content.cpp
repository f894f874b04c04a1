#include <algorithm>
#include <array>
#include <cmath>

#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_finding_words.hpp>
#include <ohmwright/report/log_report.hpp>
#include <ohmwright/report/log_trouble_words.hpp>
#include <ohmwright/report/log_words.hpp>

namespace ohmwright {

namespace {

using cycles::Defrost;
using cycles::LogAnalysis;
using cycles::LogFinding;

constexpr double second_per_hour = 3600.0;
constexpr double joule_per_watt_hour = 3600.0;
constexpr std::size_t most_defrosts_listed = 12;

class LogSentences {
 public:
  LogSentences(const LogReport& report, const Sentences& say)
      : analysis_(report.analysis), report_(report), say_(say) {}

  LogContent make() {
    headline();
    of_what();
    add(report_.reader.findings(), log_question_words(), content_.questions);
    add(analysis_.findings, log_question_words(), content_.questions);
    verdicts();
    defrosts();
    table();
    cooling();
    not_shown();
    add(report_.reader.findings(), log_form_words(), content_.form);
    add(analysis_.findings, log_form_words(), content_.form);
    content_.troubles = log_trouble_lines(report_, say_);
    for (const cycles::LogThreshold& threshold : analysis_.thresholds)
      content_.thresholds.push_back(log_threshold_text(threshold, say_));
    return std::move(content_);
  }

 private:
  bool is_empty() const { return cycles::find_finding(analysis_.findings, "log-has-no-rows") != nullptr; }

  /// What asks before anything is told of a part. A doubted unit asks once, as a finding, and what was seen and asks
  /// stands beside what else was seen.
  static bool is_question(const cycles::LogVerdict& verdict) {
    return verdict.asks && verdict.text != cycles::unit_in_doubt_text && !saw_something(verdict);
  }

  void headline() {
    const FindingArgument span{"span", duration_text(analysis_.coverage.span_second)};
    const FindingArgument count{"count", std::to_string(analysis_.defrost_count)};
    if (analysis_.lasting_heat && analysis_.lasting_heat->is_sure()) {
      content_.headline = say_(OHMWRIGHT_TEXT("IT HEATS AND DOES NOT STOP: switch it off or unplug it now"));
      return;
    }
    if (is_empty()) {
      content_.headline = say_(OHMWRIGHT_TEXT("THE LOG IS EMPTY: no row of it could be used"));
      return;
    }
    const bool air_alone = analysis_.has_cabinet && !analysis_.has_load && !analysis_.has_coil;
    if (air_alone && analysis_.defrost_count == 0)
      content_.headline = say_(OHMWRIGHT_TEXT("NO DEFROST SHOWS IN THE AIR in {span}: it may hide one"), {span});
    else if (air_alone)
      content_.headline =
          say_(OHMWRIGHT_TEXT("RISES OF THE AIR THAT MAY BE DEFROSTS: {count} in {span}"), {count, span});
    else if (analysis_.defrost_count > 0 && cycles::may_be_cooling_alone(analysis_))
      content_.headline = say_(OHMWRIGHT_TEXT("LOADS THAT MAY BE DEFROSTS: {count} in {span}"), {count, span});
    else if (analysis_.defrost_count == 0)
      content_.headline = say_(OHMWRIGHT_TEXT("NO DEFROST SEEN in {span}"), {span});
    else if (analysis_.defrost_count == 1)
      content_.headline = say_(OHMWRIGHT_TEXT("1 DEFROST in {span}"), {span});
    else
      content_.headline = say_(OHMWRIGHT_TEXT("{count} DEFROSTS in {span}"), {count, span});
  }

  void add(const std::vector<LogFinding>& findings, std::span<const FindingWords> words,
           std::vector<std::string>& lines) const {
    for (const LogFinding& finding : findings)
      for (const FindingWords& row : words)
        if (row.id == finding.id)
          add_once(say_(row.english, {{"one", worded(finding, row.one)},
                                      {"two", worded(finding, row.two)},
                                      {"three", worded(finding, row.three)}}),
                   lines);
  }

  /// The argument as people read it, in their language where it is a word.
  std::string worded(const LogFinding& finding, std::string_view name) const {
    const std::string text = argument_text(finding, name);
    for (const ArgumentWord& word : log_argument_words())
      if (word.argument == name && word.value == text) return say_(word.english);
    return text;
  }

  /// Reader and analysis may find the same.
  static void add_once(const std::string& line, std::vector<std::string>& lines) {
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  }

  void of_what() {
    std::string named = report_.file;
    if (!report_.appliance.empty()) named += (named.empty() ? "" : ", ") + report_.appliance;
    const std::optional<double> start = report_.reader.start_second();
    if (start)
      content_.of_what = say_(OHMWRIGHT_TEXT("{named}: from {start} to {end}"),
                              {{"named", named},
                               {"start", log_date_text(*start)},
                               {"end", log_date_text(*start + analysis_.coverage.span_second)}});
    else
      content_.of_what = named;
  }

  /// Left open, but something was seen: it belongs to what the log says, not to what it cannot show.
  static bool saw_something(const cycles::LogVerdict& verdict) {
    const auto* count = std::find_if(verdict.arguments.data(), verdict.arguments.data() + verdict.arguments.size(),
                                     [](const cycles::LogArgument& one) { return one.name == "count"; });
    return verdict.outcome == Outcome::undecided && verdict.meaning != ProbabilityMeaning::within_limits &&
           count != verdict.arguments.data() + verdict.arguments.size();
  }

  /// Rules that leave it open, those that rest on a doubted unit in one line.
  void left_open() {
    std::string withheld;
    for (const cycles::LogVerdict& verdict : report_.verdicts) {
      if (verdict.outcome != Outcome::undecided || saw_something(verdict) || is_question(verdict)) continue;
      if (verdict.text == cycles::unit_in_doubt_text)
        withheld += (withheld.empty() ? "" : ", ") + log_rule_title(verdict.rule, say_);
      else
        content_.not_shown.push_back(log_verdict_text(verdict, say_));
    }
    if (!withheld.empty())
      content_.not_shown.push_back(
          say_(OHMWRIGHT_TEXT("Not judged, since a unit is in doubt: {rules}."), {{"rules", withheld}}));
  }

  bool is_air_alone() const { return analysis_.has_cabinet && !analysis_.has_coil && !analysis_.has_load; }

  void verdicts() {
    for (const cycles::LogVerdict& verdict : report_.verdicts) {
      if (is_question(verdict)) content_.questions.push_back(log_verdict_text(verdict, say_));
      if (verdict.outcome == Outcome::out_of_limits) content_.verdicts.push_back(log_verdict_text(verdict, say_));
    }
    for (const cycles::LogVerdict& verdict : report_.verdicts)
      if (saw_something(verdict)) content_.verdicts.push_back(log_verdict_text(verdict, say_));
    if (!is_empty() && !cycles::asks_for_a_test(report_.verdicts) &&
        !cycles::leaves_a_question(analysis_, report_.verdicts))
      content_.verdicts.push_back(
          is_air_alone() ? say_(OHMWRIGHT_TEXT("Nothing in the air of the cabinet asks for a test of a part, and it "
                                               "clears none: it does not show whether a heater heats."))
                         : say_(OHMWRIGHT_TEXT("Nothing in it asks for a test of a part.")));
    std::vector<std::string> said;
    for (const cycles::LogVerdict& verdict : report_.verdicts)
      for (const std::string_view symptom : verdict.symptoms) add_once(" --symptom " + std::string(symptom), said);
    std::string words;
    for (const std::string& word : said) words += word;
    if (!words.empty())
      content_.brief_cautions = log_brief_cautions(
          say_, analysis_.lasting_heat && analysis_.lasting_heat->takes_over() ? "heat-that-goes-on" : "judge-a-log");
    if (!words.empty())
      content_.next.push_back(say_(
          OHMWRIGHT_TEXT("Find the part with what this log shows: ohmwright locate "
                         "{appliance}{words}"),
          {{"appliance", report_.appliance.empty() ? "APPLIANCE" : shell_word(report_.appliance)}, {"words", words}}));
    if (!words.empty() && report_.appliance.empty())
      content_.next.push_back(
          say_(OHMWRIGHT_TEXT("APPLIANCE is one of \"ohmwright appliance list\", or a file that "
                              "\"ohmwright appliance new\" makes with a few questions")));
  }

  static bool heats_unseen(const Defrost& defrost) { return defrost.has_load && !defrost.heater_is_seen; }

  std::string cause_text(const Defrost& defrost) const {
    if (heats_unseen(defrost)) return say_(OHMWRIGHT_TEXT("no heater was seen to draw"));
    const bool by_length =
        defrost.ground == cycles::EndGround::equal_durations || defrost.ground == cycles::EndGround::unequal_durations;
    switch (defrost.cause) {
      case cycles::EndCause::temperature:
        return by_length ? say_(OHMWRIGHT_TEXT("ended by temperature (told by the lengths)"))
                         : say_(OHMWRIGHT_TEXT("ended by temperature"));
      case cycles::EndCause::time_limit:
        return by_length ? say_(OHMWRIGHT_TEXT("ended by the time limit (told by the lengths)"))
                         : say_(OHMWRIGHT_TEXT("ended by the time limit"));
      case cycles::EndCause::unknown:
        break;
    }
    return say_(OHMWRIGHT_TEXT("what ended it is not shown"));
  }

  void defrosts() {
    const std::size_t count = analysis_.defrosts.size();
    content_.defrosts_title =
        count > most_defrosts_listed
            ? say_(OHMWRIGHT_TEXT("The last {listed} of {count} defrosts (all: --format json)"),
                   {{"listed", std::to_string(most_defrosts_listed)}, {"count", std::to_string(count)}})
            : say_(OHMWRIGHT_TEXT("Defrosts"));
    for (std::size_t i = count > most_defrosts_listed ? count - most_defrosts_listed : 0; i < count; ++i) {
      const Defrost& defrost = analysis_.defrosts[i];
      std::string line = say_(OHMWRIGHT_TEXT("{when}: {length}, {cause}"),
                              {{"when", log_time_text(defrost.start_second, report_.reader.start_second())},
                               {"length", duration_text(defrost.end_second - defrost.start_second)},
                               {"cause", cause_text(defrost)}});
      if (defrost.energy_joule > 0.0)
        line +=
            say_(OHMWRIGHT_TEXT("; {energy} Wh"), {{"energy", rounded(defrost.energy_joule / joule_per_watt_hour)}});
      if (defrost.peak_kelvin)
        line += say_(OHMWRIGHT_TEXT("; coil up to {peak}"), {{"peak", degrees_text(*defrost.peak_kelvin)}});
      if (defrost.plateau_second > 0.0)
        line += say_(OHMWRIGHT_TEXT("; {length} at the melting point"),
                     {{"length", duration_text(defrost.plateau_second)}});
      if (defrost.frost)
        line += say_(OHMWRIGHT_TEXT("; frost {mass} g ± {doubt} g"),
                     {{"mass", rounded(1000.0 * defrost.frost->kilogram)},
                      {"doubt", rounded(1000.0 * defrost.frost->uncertainty_kilogram)}});
      if (defrost.interval_running_second)
        line += say_(OHMWRIGHT_TEXT("; {hours} h of running since the one before"),
                     {{"hours", rounded(*defrost.interval_running_second / second_per_hour, 1)}});
      if (defrost.is_cut) line += say_(OHMWRIGHT_TEXT("; cut by a gap or the log's end"));
      content_.defrosts.push_back(line);
    }
  }

  void table() {
    content_.table.push_back(
        {say_(OHMWRIGHT_TEXT("no.")), say_(OHMWRIGHT_TEXT("start")), say_(OHMWRIGHT_TEXT("length")),
         say_(OHMWRIGHT_TEXT("ended by")), say_(OHMWRIGHT_TEXT("energy")), say_(OHMWRIGHT_TEXT("melting")),
         say_(OHMWRIGHT_TEXT("warmest")), say_(OHMWRIGHT_TEXT("drip")), say_(OHMWRIGHT_TEXT("recovery")),
         say_(OHMWRIGHT_TEXT("frost")), say_(OHMWRIGHT_TEXT("interval"))});
    const std::size_t count = analysis_.defrosts.size();
    for (std::size_t i = count > most_defrosts_listed ? count - most_defrosts_listed : 0; i < count; ++i) {
      const Defrost& one = analysis_.defrosts[i];
      const auto time = [](const std::optional<double>& second) { return second ? duration_text(*second) : "-"; };
      content_.table.push_back(
          {std::to_string(i + 1), log_time_text(one.start_second, report_.reader.start_second()),
           duration_text(one.end_second - one.start_second), end_word(one),
           one.energy_joule > 0.0 ? rounded(one.energy_joule / joule_per_watt_hour) + " Wh" : "-",
           one.plateau_second > 0.0 ? duration_text(one.plateau_second) : "-",
           one.peak_kelvin ? degrees_text(*one.peak_kelvin) : "-", time(one.drip_second), time(one.recovery_second),
           one.frost ? rounded(1000.0 * one.frost->kilogram) + " g" : "-", time(one.interval_second)});
    }
  }

  std::string end_word(const Defrost& defrost) const {
    if (heats_unseen(defrost)) return say_(OHMWRIGHT_TEXT("no heater seen"));
    switch (defrost.cause) {
      case cycles::EndCause::temperature:
        return say_(OHMWRIGHT_TEXT("temperature"));
      case cycles::EndCause::time_limit:
        return say_(OHMWRIGHT_TEXT("time limit"));
      case cycles::EndCause::unknown:
        break;
    }
    return say_(OHMWRIGHT_TEXT("not shown"));
  }

  void cooling() {
    if (analysis_.run_share)
      content_.cooling.push_back(
          say_(OHMWRIGHT_TEXT("Run share {share} %: {count} runs, typically {run} on and {pause} off."),
               {{"share", rounded(100.0 * *analysis_.run_share)},
                {"count", std::to_string(analysis_.run_count)},
                {"run", duration_text(analysis_.typical_run_second.value_or(0.0))},
                {"pause", duration_text(analysis_.typical_pause_second.value_or(0.0))}}));
    if (analysis_.energy_joule > 0.0)
      content_.cooling.push_back(say_(OHMWRIGHT_TEXT("Energy {energy} kWh."),
                                      {{"energy", rounded(analysis_.energy_joule / joule_per_watt_hour / 1000.0, 2)}}));
    if (analysis_.door_count > 0)
      content_.cooling.push_back(say_(OHMWRIGHT_TEXT("Rises that a door makes and no heater: {count}."),
                                      {{"count", std::to_string(analysis_.door_count)}}));
  }

  void not_shown() {
    left_open();
    if (const LogFinding* gaps = cycles::find_finding(analysis_.findings, "gaps-can-hide-defrosts"))
      content_.not_shown.push_back(
          say_(OHMWRIGHT_TEXT("Gaps cover {share} % of the log: a defrost cannot be ruled out there."),
               {{"share", rounded(100.0 * gaps->number("share").value_or(0.0))}}));
    add(report_.reader.findings(), log_limit_words(), content_.not_shown);
    add(analysis_.findings, log_limit_words(), content_.not_shown);
  }

  const LogAnalysis& analysis_;
  const LogReport& report_;
  const Sentences& say_;
  LogContent content_;
};

}  // namespace

LogContent log_content(const LogReport& report, const Sentences& say) { return LogSentences(report, say).make(); }

}  // namespace ohmwright
