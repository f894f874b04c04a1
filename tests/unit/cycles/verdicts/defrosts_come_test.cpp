// Whether defrosts come, and how often: from values made by hand. Limits are those of the rules (docs/arithmetic.md).
#include <utility>
#include <vector>

#include <ohmwright/cycles/verdicts/defrost_wait.hpp>

#include "made_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

TEST(GoodLog, PassesEveryRuleOrIsSilent) {
  for (const LogVerdict& verdict : judge_log(good_log(8), its_ratings()))
    EXPECT_TRUE(verdict.outcome == Outcome::within_limits || verdict.outcome == Outcome::silent) << verdict.rule;
  EXPECT_FALSE(leaves_a_question(good_log(8), judge_log(good_log(8), its_ratings())));
}

// By hand: none is due up to the longest interval; then each that was due is hidden.
TEST(DefrostsCome, AWaitIsTheRarerTheMoreWereDue) {
  EXPECT_EQ(probability_of_wait({0.99, 1.0, false, 0.1, 0.0}), 1.0);
  EXPECT_NEAR(probability_of_wait({1.01, 1.0, false, 0.1, 0.0}), 0.1, 1e-12);
  EXPECT_NEAR(probability_of_wait({6.25, 1.0, false, 0.1, 0.0}), 1e-6, 1e-15);
  EXPECT_EQ(probability_of_wait({1.01, 1.0, false, 0.0, 0.0}), 0.0);
  EXPECT_EQ(probability_of_wait({1.01, 1.0, false, 0.0, 0.02}), 1.0);  // within its doubt
}

TEST(DefrostsCome, WhereTheyAreSeen) { expect_says("defrosts-come", good_log(8), Outcome::within_limits, "seen"); }

TEST(DefrostsCome, NotAgainAfterTheSecond) {
  LogAnalysis log = good_log(2);
  log.coverage.span_second += 12.0 * 24.0 * hour;
  log.after_last = {12.2 * 24.0 * hour, 6.1 * 24.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since");
  expect_says("interval", log, Outcome::out_of_limits, "ends-open");
  EXPECT_EQ(said("defrosts-come", log).symptoms, std::vector<std::string_view>{"no-defrost"});
  // Without ratings the rarest that is known counts, 54 h, and 96 h of running.
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since", {});
}

TEST(DefrostsCome, AtTheEdgeOfTheRatedInterval) {
  LogAnalysis log = good_log(6, 30.0);
  log.after_last = {32.0 * hour, 15.9 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::within_limits, "seen");
  log.after_last = {32.0 * hour, 16.5 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since");
}

TEST(DefrostsCome, NotBeforeTheFirst) {
  LogAnalysis log = good_log(4);
  log.before_first = {100.0 * hour, 50.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-before");
}

TEST(DefrostsCome, PerhapsInAGapAtTheEnd) {
  LogAnalysis log = good_log(8);
  // 60 h, of which 50 are a gap: each of the three that were due came in it with 5/6.
  log.after_last = {60.0 * hour, std::nullopt, 50.0 * hour};
  LogRatings by_clock = its_ratings();
  by_clock.interval_counts_running = false;
  by_clock.interval_most_second = 20.0 * hour;
  EXPECT_NEAR(probability_of_wait(wait_of({log, by_clock}, log.after_last)), std::pow(50.0 / 60.0, 2.0), 1e-12);
  EXPECT_NE(said("defrosts-come", log, by_clock).outcome, Outcome::out_of_limits);
}

TEST(DefrostsCome, IsLeftOpenWhereTheyAreLongOverdueByTheirOwnMeasure) {
  LogAnalysis log = good_log(8);
  log.after_last = {40.0 * hour, 15.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "overdue");
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, its_ratings())));
  // Nor is there nothing to prove by such a log.
  const RepairComparison comparison = compare_repair(log, good_log(8), its_ratings());
  const auto come = std::find_if(comparison.rules.begin(), comparison.rules.end(),
                                 [](const RuleChange& one) { return one.rule == "defrosts-come"; });
  ASSERT_NE(come, comparison.rules.end());
  EXPECT_TRUE(come->before.asks);
  EXPECT_EQ(comparison.outcome, Outcome::undecided);
}

TEST(DefrostsCome, MayHideInALoadThatIsAsTheHeaters) {
  LogAnalysis log = good_log(8);
  for (Defrost& one : log.defrosts) one.draws_like_compressor = true;
  expect_says("defrosts-come", log, Outcome::within_limits, "seen", {});  // the coil shows them
  log.has_coil = false;
  expect_says("defrosts-come", log, Outcome::undecided, "others-may-hide", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
  expect_says("defrosts-come", log, Outcome::within_limits, "seen");  // what the heater draws is rated
}

TEST(DefrostsCome, AreNotMissedWhileItStood) {
  LogAnalysis log = good_log(4);
  log.coverage.span_second += 100.0 * hour;
  log.standstill = Standstill{log.defrosts.back().end_second + hour, log.coverage.span_second, 294.0};
  log.after_last = {105.0 * hour, hour, 100.0 * hour};
  EXPECT_NE(said("defrosts-come", log).outcome, Outcome::out_of_limits);
  expect_says("runs-and-cools", log, Outcome::undecided, "stands-warm");
}

/// A log of so long with no defrost, half of it running.
LogAnalysis none_in(double hours) {
  LogAnalysis log = good_log(0);
  log.coverage.span_second = hours * hour;
  log.running_second = 0.5 * hours * hour;
  log.before_first = {hours * hour, 0.5 * hours * hour, 0.0};
  return log;
}

TEST(DefrostsCome, NoneInALogOfAnyLength) {
  LogAnalysis log = none_in(96.0);
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-seen");
  log.before_first.running_second = 3.0 * hour;
  expect_says("defrosts-come", log, Outcome::undecided, "log-too-short");
  log.before_first = {96.0 * hour, 48.0 * hour, 0.4 * 96.0 * hour};
  expect_says("defrosts-come", log, Outcome::undecided, "gaps-hide");
  // The rarest known come every 54 h: after 51.6 h none was due, whatever a random moment would make of it.
  expect_says("defrosts-come", none_in(51.6), Outcome::undecided, "log-too-short", {});
  expect_says("defrosts-come", none_in(55.0), Outcome::out_of_limits, "none-seen", {});
}

/// Load alone, no defrost in four days, the compressor drawing so much.
LogAnalysis load_alone(double running_watt) {
  LogAnalysis log = none_in(96.0);
  log.has_coil = log.has_cabinet = false;
  for (int i = 0; i < 100; ++i)
    log.runs.push_back({i * 3000.0, i * 3000.0 + 1500.0, static_cast<float>(running_watt), true, true});
  return log;
}

// The weakest class that is shipped, 180 W at 230 V - 10 %, draws 131 W at 90 % of its voltage.
TEST(DefrostsCome, PerhapsUnderACompressorThatDrawsAsMuchAsAHeater) {
  expect_says("defrosts-come", load_alone(95.0), Outcome::out_of_limits, "none-seen", {});
  expect_says("defrosts-come", load_alone(120.0), Outcome::undecided, "load-hides-heater", {});
  expect_says("defrosts-come", load_alone(450.0), Outcome::undecided, "load-hides-heater", {});
  LogRatings strong = its_ratings();
  strong.heater_watt = RatedBand{900.0, 810.0, 990.0};
  expect_says("defrosts-come", load_alone(450.0), Outcome::out_of_limits, "none-seen", strong);
  LogAnalysis amperes = load_alone(0.4);
  amperes.load_is_current = true;
  expect_says("defrosts-come", amperes, Outcome::out_of_limits, "none-seen", {});
  amperes = load_alone(2.0);
  amperes.load_is_current = true;
  expect_says("defrosts-come", amperes, Outcome::undecided, "load-hides-heater", {});
}

TEST(DefrostsCome, PerhapsBetweenRowsThatAreFarApart) {
  LogAnalysis log = load_alone(120.0);
  log.coverage.spacing_second = 900.0;
  expect_says("defrosts-come", log, Outcome::undecided, "rows-hide-them", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
}

// A coil's rise is stepped over as a heating is: what was logged does not matter, but what its rows can show.
TEST(DefrostsCome, PerhapsBetweenRowsOfTheCoilThatAreFarApart) {
  for (const bool has_load : {false, true}) {
    LogAnalysis log = none_in(192.0);
    log.has_load = has_load;
    log.coverage.spacing_second = 300.0;
    expect_says("defrosts-come", log, Outcome::out_of_limits, "none-seen", {});
    log.coverage.spacing_second = 900.0;
    expect_says("defrosts-come", log, Outcome::undecided, "rows-hide-them", {});
    EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
  }
}

/// Eight days of a coil's rows so far apart, at -20 degC, the one at that hour at `celsius`.
LogAnalysis cold_coil(double spacing_second, double celsius = -20.0, double at_hour = 100.0) {
  LogAnalysis log = none_in(192.0);
  log.has_load = false;  // rows of up to ten minutes would show a heating in it
  log.coverage.spacing_second = spacing_second;
  for (double second = 0.0; second < 192.0 * hour; second += spacing_second) {
    const bool is_the_one = second <= at_hour * hour && second + spacing_second > at_hour * hour;
    PlotPoint point{second, spacing_second, {}};
    point.value[index_of(LogQuantity::coil_temperature)] =
        static_cast<float>(melting_point_kelvin + (is_the_one ? celsius : -20.0));
    log.outline.add(point);
  }
  return log;
}

// By hand: of a rise that is warm for 20 min, rows of 10 min always hold one that lies whole within it, rows of 12 min
// miss it with 2 - 20/12 = 1/3, rows of 20 min and more may always do. Every 16 h of running, five are due for sure
// within 96 h less the doubt of its edges; by the clock all lie alike to the rows, and the chance is that of one.
TEST(DefrostsCome, NotWhereTheRowsOfACoilThatStayedColdWouldShowARise) {
  for (const double spacing : {420.0, 600.0})
    expect_says("defrosts-come", cold_coil(spacing), Outcome::out_of_limits, "none-seen", {});
  expect_says("defrosts-come", cold_coil(720.0), Outcome::undecided, "rows-hide-them", {});
  expect_says("defrosts-come", cold_coil(720.0), Outcome::out_of_limits, "none-seen");
  EXPECT_NEAR(said("defrosts-come", cold_coil(720.0)).probability, std::pow(1.0 / 3.0, 5.0), 1e-12);
  expect_says("defrosts-come", cold_coil(900.0), Outcome::undecided, "rows-hide-them");
  expect_says("defrosts-come", cold_coil(1800.0), Outcome::undecided, "rows-hide-them");
  // One row as warm as in a rise of three that were due, or a coil that was logged now and then, and nothing is
  // settled.
  expect_says("defrosts-come", cold_coil(600.0, -4.0), Outcome::undecided, "rows-hide-them", {});
  expect_says("defrosts-come", cold_coil(600.0, -6.0), Outcome::out_of_limits, "none-seen", {});
  LogAnalysis holes = cold_coil(600.0);
  holes.coverage.logged_second[index_of(LogQuantity::coil_temperature)] *= 0.9;
  expect_says("defrosts-come", holes, Outcome::undecided, "rows-hide-them", {});
}

// Rows that step over rises show half of those that were due in part: nothing is settled, and nothing asked.
TEST(DefrostsCome, SeemToWhereRowsOfTheCoilWereWarmNowAndThen) {
  LogAnalysis log = cold_coil(900.0, 3.0);
  PlotPoint another{150.0 * hour, 900.0, {}};
  another.value[index_of(LogQuantity::coil_temperature)] = static_cast<float>(melting_point_kelvin + 6.0);
  log.outline.add(another);
  expect_says("defrosts-come", log, Outcome::undecided, "rows-too-far", {});
  EXPECT_FALSE(leaves_a_question(log, judge_log(log, {})));
}

TEST(DefrostsCome, NotSinceTheLastWhereTheCoilStayedColdBehindIt) {
  LogAnalysis log = cold_coil(600.0, 5.0, 20.0);
  log.defrosts.push_back(good_defrost(20.0 * hour));
  log.defrost_count = 1;
  log.before_first = {20.0 * hour, 10.0 * hour, 0.0};
  log.after_last = {172.0 * hour, 100.0 * hour, 0.0, 20.3 * hour};
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since", {});
}

TEST(DefrostsCome, ShowInRowsOfTheCoilThatAreFarApartAndOthersMayHaveGoneBy) {
  LogAnalysis log = good_log(3);
  log.coverage.spacing_second = 900.0;
  expect_says("defrosts-come", log, Outcome::within_limits, "seen");
  log.after_last = {96.0 * hour, 48.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "rows-hide-them");
  log.coverage.spacing_second = 300.0;
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since");
}

TEST(DefrostsCome, PerhapsInRowsThatStandOutOneByOne) {
  LogAnalysis log = load_alone(90.0);
  log.short_stand_outs = 9;
  expect_says("defrosts-come", log, Outcome::undecided, "too-short-to-show", {});
  log.has_coil = true;  // it would show them
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-seen", {});
}

/// Two heatings of 180 W beside a compressor of 155 W, then none for three days: with none at all it is left open, too.
TEST(DefrostsCome, AnOpenEndIsJudgedLikeNoneAtAll) {
  LogAnalysis log = load_alone(155.0);
  for (Defrost one : good_log(2).defrosts) {
    one.heater_load = 180.0;
    one.has_coil = false;
    log.defrosts.push_back(one);
  }
  log.defrost_count = 2;
  log.after_last = {74.0 * hour, 37.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "load-hides-heater", {});
  LogRatings timer;
  timer.interval_least_second = 6.0 * hour;
  timer.interval_most_second = 16.0 * hour;
  expect_says("interval", log, Outcome::undecided, "may-be-unseen", timer);
  for (Defrost& one : log.defrosts) one.heater_load = 450.0;
  expect_says("defrosts-come", log, Outcome::undecided, "slow-or-none", {});
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since", timer);
  expect_says("interval", log, Outcome::out_of_limits, "ends-open", timer);
}

TEST(DefrostsCome, IsLeftOpenWhereTheirLoadMayBeTheCompressors) {
  LogAnalysis log = good_log(8);
  log.has_coil = log.has_cabinet = false;
  expect_says("defrosts-come", log, Outcome::within_limits, "seen");
  log.heats_at_only_level = true;
  expect_says("defrosts-come", log, Outcome::undecided, "cools-or-heats");
  log.heats_at_only_level = false;
  log.findings.push_back({"load-has-one-level"});
  expect_says("defrosts-come", log, Outcome::undecided, "cools-or-heats");
  log.has_coil = true;  // it shows what warms
  expect_says("defrosts-come", log, Outcome::within_limits, "seen");
}

TEST(DefrostsCome, PerhapsAsTheOnlyLevelAboveStandby) {
  LogAnalysis log = load_alone(120.0);
  log.one_level_second = 9.0 * hour;
  expect_says("defrosts-come", log, Outcome::undecided, "cools-or-heats", {});
}

TEST(DefrostsCome, IsLeftOpenWhereTheAirAloneWasLogged) {
  LogAnalysis log = good_log(8);
  log.has_load = log.has_coil = false;
  expect_says("defrosts-come", log, Outcome::undecided, "by-air-alone");
}

// An inverter's compressor runs on and slows down (common practice, no source).
TEST(CompressorStops, IsLeftOpenWhereItsLoadWanders) {
  LogAnalysis log = good_log(8);
  log.never_stops = true;
  expect_says("compressor-stops", log, Outcome::out_of_limits, "never-stops");
  log.load_is_modulated = true;
  expect_says("compressor-stops", log, Outcome::undecided, "slows-down");
}

TEST(DefrostsCome, NeedNotWhereTheCoilThawsInThePauses) {
  LogAnalysis log = none_in(96.0);
  log.coil_thaws = 60;
  log.cabinet_mean_kelvin = melting_point_kelvin + 4.0;  // a refrigerator's
  expect_says("defrosts-come", log, Outcome::undecided, "thaws-in-pauses", {});
  log.coil_thaws = 2;  // by an open door
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-seen", {});
}

// A freezer's coil does not thaw in a pause: something heats it sixty times in four days.
TEST(DefrostsCome, AsOftenAsTheCoilOfAFreezerThawsIsAskedAbout) {
  LogAnalysis log = none_in(96.0);
  log.coil_thaws = 60;
  expect_says("defrosts-come", log, Outcome::undecided, "thaws-in-freezer", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
  log.coil_thaws = 12;  // each eight hours, in rows that do not show the defrosts whole
  EXPECT_NE(said("defrosts-come", log, {}).text, "thaws-in-freezer");
}

// A timer that steps too fast: defrosts each two and a half hours, told or not.
TEST(DefrostsCome, OftenerThanAnyControlStartsThemAreAskedAbout) {
  expect_says("defrosts-come", good_log(38, 2.5), Outcome::undecided, "too-often", {});
  expect_says("defrosts-come", good_log(30, 4.0), Outcome::within_limits, "seen", {});
  LogAnalysis alone = load_alone(90.0);
  alone.frequent_heatings = 47;
  expect_says("defrosts-come", alone, Outcome::undecided, "heats-too-often", {});
  EXPECT_TRUE(leaves_a_question(alone, judge_log(alone, {})));
}

// 300 W came twice, and for days nothing: 150 W would not stand out from a compressor of 130 W.
TEST(DefrostsCome, MayBeOfHalfAHeaterSince) {
  LogAnalysis log = good_log(2);
  log.has_coil = log.has_cabinet = false;
  for (Defrost& one : log.defrosts) one.heater_load = 300.0;
  log.runs.assign(20, CompressorRun{0.0, 1500.0, 130.0F, true, true});
  log.after_last = {200.0 * hour, 100.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "load-hides-half", {});
  log.runs.assign(20, CompressorRun{0.0, 1500.0, 90.0F, true, true});
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since", {});
}

TEST(DefrostsCome, OfALoadAloneInFewRowsEachMayBeMore) {
  LogAnalysis log = good_log(4);
  log.has_coil = log.has_cabinet = false;
  log.coverage.spacing_second = 400.0;
  expect_says("defrosts-come", log, Outcome::undecided, "seen-in-few-rows", {});
  log.short_stand_outs = 2;
  expect_says("defrosts-come", log, Outcome::undecided, "seen-in-few-rows", {});
  log.short_stand_outs = 4;
  expect_says("defrosts-come", log, Outcome::undecided, "seen-in-part", {});
  log.short_stand_outs = 9;  // 13 in 45 h
  expect_says("defrosts-come", log, Outcome::undecided, "heats-too-often", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
}

TEST(DefrostsCome, AreNotLookedForWhereNoColumnMoves) {
  LogAnalysis log = good_log(0);
  log.has_load = log.has_coil = log.has_cabinet = false;
  expect_says("defrosts-come", log, Outcome::silent, "nothing-moves");
}

TEST(Interval, OnBothSidesOfItsLimits) {
  LogAnalysis log = good_log(8);
  const auto with_last = [&](double running_hour) {
    log.defrosts.back().interval_running_second = running_hour * hour;
    return log;
  };
  expect_says("interval", with_last(5.0), Outcome::within_limits, "in-limits");
  expect_says("interval", with_last(17.0), Outcome::out_of_limits, "too-long");
  // Somebody may have started a single one by hand; two of seven are the control's.
  expect_says("interval", with_last(3.0), Outcome::undecided, "one-too-short");
  expect_says("interval", with_last(16.01), Outcome::undecided, "unsettled");
  log.defrosts.back().gap_in_interval_second = hour;
  expect_says("interval", with_last(30.0), Outcome::within_limits, "in-limits");
  expect_says("interval", log, Outcome::silent, "no-ratings", {});
  expect_says("interval", good_log(1), Outcome::silent, "none-whole");
}

/// Its intervals by the clock and by the running [h], the first after the first defrost.
LogAnalysis with_intervals(const std::vector<std::pair<double, double>>& clock_and_running) {
  LogAnalysis log = good_log(static_cast<int>(clock_and_running.size()) + 1);
  for (std::size_t i = 0; i < clock_and_running.size(); ++i) {
    log.defrosts[i + 1].interval_second = clock_and_running[i].first * hour;
    log.defrosts[i + 1].interval_running_second = clock_and_running[i].second * hour;
  }
  return log;
}

/// Rated 4 to 16 h of running. A timer whose motor is fed always comes every 8 h by the clock, however little runs.
TEST(Interval, IsCountedAsTheLogShowsThatTheControlCounts) {
  const LogAnalysis by_clock = with_intervals({{8.0, 3.7}, {8.0, 5.3}, {8.0, 3.6}, {8.0, 4.2}, {8.0, 3.8}});
  expect_says("interval", by_clock, Outcome::within_limits, "in-limits");
  // One started by hand among them: 5 h after the last, and the clock goes on.
  const LogAnalysis by_hand = with_intervals({{8.0, 3.7}, {3.0, 1.3}, {5.0, 2.1}, {8.0, 3.6}, {8.0, 4.2}, {8.0, 3.8}});
  expect_says("interval", by_hand, Outcome::undecided, "one-too-short");
  const LogAnalysis by_running = with_intervals({{6.0, 3.0}, {8.0, 3.0}, {7.0, 3.0}, {5.0, 3.0}, {6.5, 3.0}});
  expect_says("interval", by_running, Outcome::out_of_limits, "too-short");
  const LogAnalysis varied = with_intervals({{5.0, 3.0}, {8.0, 3.5}, {7.0, 2.5}, {4.5, 2.0}, {6.5, 3.2}});
  expect_says("interval", varied, Outcome::out_of_limits, "too-short");
  // Evenly used, it is as even by both; and of one interval nothing shows.
  expect_says("interval", with_intervals({{6.0, 3.0}, {6.0, 3.0}, {6.0, 3.0}}), Outcome::undecided, "count-untold");
  expect_says("interval", with_intervals({{6.0, 3.0}}), Outcome::undecided, "count-untold");
  // Too early by both is too early.
  expect_says("interval", with_intervals({{3.0, 1.5}, {3.0, 2.0}, {3.0, 1.2}}), Outcome::out_of_limits, "too-short");
  expect_says("interval", with_intervals({{40.0, 17.0}, {40.0, 20.0}, {40.0, 23.0}}), Outcome::out_of_limits,
              "too-long");
}

// By hand: over three of 3 h of running each the edges make 2 x 66 s of a spread of 300 s, which is 1.6 %; over none,
// as those that lack their running would have it, 2 x 24 s, and 2.3 %.
TEST(Interval, IsToldByThoseWhoseRunningWasLogged) {
  LogAnalysis log =
      with_intervals({{5.9, 2.917}, {6.0, 3.0}, {6.1, 3.083}, {6.0, 3.0}, {6.0, 3.0}, {6.0, 3.0}, {6.0, 3.0}});
  for (std::size_t i = 4; i < log.defrosts.size(); ++i) log.defrosts[i].interval_running_second.reset();
  expect_says("interval", log, Outcome::undecided, "count-untold");
}

TEST(HeatStops, OrIsToBeSwitchedOff) {
  LogAnalysis log = good_log(8);
  expect_says("heat-stops", log, Outcome::within_limits, "stops");
  log.lasting_heat = LastingHeat{20.0 * hour, 47.0 * hour, 452.0, melting_point_kelvin + 60.0, HeatGround::hot_coil};
  expect_says("heat-stops", log, Outcome::out_of_limits, "goes-on-hot");
  EXPECT_EQ(said("heat-stops", log).symptoms,
            (std::vector<std::string_view>{"long-defrost", "warm-food-after-defrost"}));
  log.lasting_heat->kelvin.reset();
  expect_says("heat-stops", log, Outcome::out_of_limits, "goes-on");
  log.lasting_heat->ground = HeatGround::load_stands;
  expect_says("heat-stops", log, Outcome::undecided, "may-go-on");
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, its_ratings())));
  log.after_last = {200.0 * hour, 100.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "heats-on");
  // A logger that was not in the appliance yet hides no defrost that was due later.
  log.lasting_heat->ground = HeatGround::hot_before_cold;
  expect_says("heat-stops", log, Outcome::undecided, "hot-before-cold");
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, its_ratings())));
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since");
  expect_says("heat-stops", good_log(0), Outcome::silent, "not-shown");
}

TEST(RunsAndCools, IsAskedAboutAndCondemnsNothing) {
  LogAnalysis log = good_log(8);
  log.standstill = Standstill{0.0, 10.0 * hour, std::nullopt};
  expect_says("runs-and-cools", log, Outcome::undecided, "stands");
  log.standstill->kelvin = 253.0;
  expect_says("runs-and-cools", log, Outcome::undecided, "cools-unseen");
  log.standstill.reset();
  log.run_share.reset();
  expect_says("runs-and-cools", log, Outcome::silent, "not-shown");
}

TEST(Repair, IsNotProvedByALogInWhichDefrostsStopOrItStands) {
  LogAnalysis before = good_log(8);
  for (Defrost& one : before.defrosts) one.heater_is_seen = false;
  const LogAnalysis well = good_log(8);
  EXPECT_EQ(compare_repair(before, well, its_ratings()).outcome, Outcome::within_limits);
  LogAnalysis stopped = good_log(2);
  stopped.after_last = {200.0 * hour, 100.0 * hour, 0.0};
  EXPECT_EQ(compare_repair(before, stopped, its_ratings()).outcome, Outcome::out_of_limits);
  LogAnalysis overdue = well;
  overdue.after_last = {40.0 * hour, 15.0 * hour, 0.0};
  EXPECT_EQ(compare_repair(before, overdue, its_ratings()).outcome, Outcome::undecided);
  LogAnalysis dead = well;
  dead.standstill = Standstill{0.0, 10.0 * hour, 294.0};
  EXPECT_EQ(compare_repair(before, dead, its_ratings()).outcome, Outcome::undecided);
  LogAnalysis doubted = well;
  doubted.unit_in_doubt[index_of(LogQuantity::power)] = true;
  EXPECT_EQ(compare_repair(before, doubted, its_ratings()).outcome, Outcome::undecided);
  LogAnalysis frozen = well;
  frozen.findings.push_back({"column-never-moved"});
  EXPECT_EQ(compare_repair(before, frozen, its_ratings()).outcome, Outcome::undecided);
}

/// Each ended by the time limit while the coil was melting.
void leave_ice(LogAnalysis& log) {
  for (Defrost& one : log.defrosts) {
    one.cause = EndCause::time_limit;
    one.ground = EndGround::still_melting;
    one.end_kelvin = one.peak_kelvin = one.lasting_peak_kelvin = melting_point_kelvin + 0.3;
  }
}

// Line voltages of ± 10 % (EN 50160) explain a factor of 1.49 and no more.
TEST(Repair, IsNotProvedWhereAUnitOfTheLogBeforeIsInDoubt) {
  LogAnalysis before = good_log(8);
  leave_ice(before);
  const LogAnalysis after = good_log(8);
  EXPECT_EQ(compare_repair(before, after, {}).outcome, Outcome::within_limits);
  before.unit_in_doubt[index_of(LogQuantity::cabinet_temperature)] = true;
  const RepairComparison comparison = compare_repair(before, after, {});
  EXPECT_EQ(comparison.outcome, Outcome::undecided);
  EXPECT_NE(find_finding(comparison.unproved, "unit-in-doubt-before"), nullptr);
  before.unit_in_doubt = {};
  before.findings.push_back({"column-may-be-coil"});
  EXPECT_NE(find_finding(compare_repair(before, after, {}).unproved, "column-may-be-coil"), nullptr);
}

TEST(Repair, IsNotProvedWhereTheHeaterIsAnother) {
  LogAnalysis before = good_log(8);
  leave_ice(before);
  const LogAnalysis after = good_log(8);
  EXPECT_EQ(compare_repair(before, after, {}).outcome, Outcome::within_limits);
  for (Defrost& one : before.defrosts) one.heater_load = 450.0 * 1.4;
  EXPECT_EQ(compare_repair(before, after, {}).outcome, Outcome::within_limits);
  for (Defrost& one : before.defrosts) one.heater_load = 120.0;
  const RepairComparison comparison = compare_repair(before, after, {});
  EXPECT_EQ(comparison.outcome, Outcome::undecided);
  EXPECT_NE(find_finding(comparison.unproved, "heater-power-differs"), nullptr);
}

TEST(DoubtedUnit, IsJudgedNeitherForNorAgainst) {
  LogAnalysis log = good_log(8);
  log.unit_in_doubt[index_of(LogQuantity::coil_temperature)] = true;
  for (Defrost& one : log.defrosts) one.lasting_peak_kelvin = 340.0;
  expect_says("coil-heat", log, Outcome::undecided, unit_in_doubt_text);
  expect_says("heater-power", log, Outcome::within_limits, "right");
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, its_ratings())));
}

}  // namespace
}  // namespace ohmwright::cycles
