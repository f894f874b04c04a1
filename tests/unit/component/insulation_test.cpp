#include <gtest/gtest.h>

#include <ohmwright/component/insulation.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

/// The kind of the framework's tests, whose "resistance" is read to the frame, with the volts of a tester.
const Descriptor& descriptor() {
  static const Descriptor with_tester = [] {
    Descriptor d = testing::test_descriptor();
    d.conditions.push_back({"test_voltage", "volts of the tester", "test", Dimension::voltage, "V", 0.0, ""});
    return d;
  }();
  return with_tester;
}

constexpr InsulationRule rule{2, 0, 2, 1e6};

struct Read {
  std::string_view value;
  std::string_view test = "500 V";
  Moisture moisture = Moisture::unstated;
  Connection connection = Connection::lead_off;
  Supply supply = Supply::proved_dead;
};

Evidence evidence_of(const std::vector<Read>& reads) {
  std::vector<Reading> readings;
  for (const Read& read : reads) {
    Reading reading{.measurand = "resistance", .observed = parse_observed(read.value, Dimension::resistance, {})};
    if (!read.test.empty())
      reading.conditions.push_back({"test_voltage", parse_stated_value(read.test, Dimension::voltage)});
    reading.moisture = read.moisture;
    reading.connection = read.connection;
    reading.supply = read.supply;
    readings.push_back(std::move(reading));
  }
  return {descriptor(), readings, MeterSet({testing::basic_meter("0 ohm")})};
}

Finding judged(const std::vector<Read>& reads) {
  const Evidence evidence = evidence_of(reads);
  Findings findings;
  const PreparedReading* reading = decisive_insulation_reading(evidence, rule);
  EXPECT_NE(reading, nullptr);
  judge_insulation_reading(*reading, rule, evidence, {}, findings);
  return findings.findings().front();
}

TEST(Insulation, OnlyATesterPassesIt) {
  EXPECT_EQ(judged({{"20 Mohm"}}).text, InsulationText::insulates);
  EXPECT_EQ(judged({{"20 Mohm"}}).outcome, Outcome::within_limits);
  EXPECT_EQ(judged({{"OL"}}).text, InsulationText::insulates_past_range);
  for (const std::string_view volts : {"", "100 V"}) {  // an ohmmeter, and a tester that is none
    const Finding value = judged({{"20 Mohm", volts}});
    EXPECT_EQ(value.text, volts.empty() ? InsulationText::ohmmeter_is_no_tester : InsulationText::few_volts);
    EXPECT_EQ(value.outcome, Outcome::undecided);
    EXPECT_TRUE(value.holds_back);
    const Finding over = judged({{"OL", volts}});
    EXPECT_EQ(over.text, volts.empty() ? InsulationText::ohmmeter_past_range : InsulationText::few_volts_past_range);
    EXPECT_TRUE(over.holds_back);
  }
}

// EN 50699, EN 50678: 500 V, and 250 V where a surge arrester would conduct (from memory).
TEST(Insulation, ATestWithFewerVoltsThanAskedPassesAndSaysSo) {
  const Finding value = judged({{"20 Mohm", "250 V"}});
  EXPECT_EQ(value.text, InsulationText::insulates_at_fewer_volts);
  EXPECT_EQ(value.outcome, Outcome::within_limits);
  EXPECT_FALSE(value.holds_back);
  EXPECT_EQ(judged({{"OL", "250 V"}}).text, InsulationText::insulates_past_range_at_fewer_volts);
  EXPECT_EQ(judged({{"20 Mohm", "500 V"}}).text, InsulationText::insulates);
  EXPECT_EQ(judged({{"0.2 Mohm", "250 V"}}).outcome, Outcome::out_of_limits);
}

TEST(Insulation, ALeakCondemnsWithTheLeadsOffAndDry) {
  EXPECT_EQ(judged({{"0.2 Mohm"}}).outcome, Outcome::out_of_limits);
  EXPECT_EQ(judged({{"0.2 Mohm", ""}}).outcome, Outcome::out_of_limits);  // a short to the frame needs no tester
  EXPECT_EQ(judged({{.value = "0.2 Mohm", .moisture = Moisture::wet}}).text, InsulationText::leaks_while_wet);
  EXPECT_EQ(judged({{.value = "0.2 Mohm", .connection = Connection::unstated}}).text,
            InsulationText::leaks_connection_unstated);
  EXPECT_EQ(judged({{"1.0 Mohm"}}).text, InsulationText::not_told_apart);
  for (const char* near_or_low : {"1.0 Mohm"}) EXPECT_TRUE(judged({{near_or_low}}).holds_back);
}

TEST(Insulation, ALeakSaysWhatLeavesItOpen) {
  EXPECT_EQ(judged({{.value = "0.2 Mohm", .connection = Connection::in_circuit}}).text,
            InsulationText::leaks_in_circuit);
  EXPECT_EQ(judged({{"20 Mohm"}, {.value = "0.2 Mohm", .connection = Connection::unstated}}).text,
            InsulationText::leaks_lead_off_of_another);
  EXPECT_EQ(judged({{"9 kohm"}}).text, InsulationText::touches_frame);  // metal on metal: condemned, and not by damp
  EXPECT_EQ(judged({{"9 kohm"}}).outcome, Outcome::out_of_limits);
  EXPECT_EQ(judged({{"11 kohm"}}).text, InsulationText::leaks);
  EXPECT_EQ(judged({{.value = "9 kohm", .moisture = Moisture::wet}}).text, InsulationText::leaks_while_wet);
}

TEST(Insulation, TextsStandInTheOrderOfTheirNames) {
  for (const InsulationPlace place : {InsulationPlace::frame, InsulationPlace::frame_or_wire}) {
    const std::vector<TextEntry> texts = insulation_texts(place, {{"own", "the kind's own"}});
    ASSERT_EQ(texts.size(), InsulationText::first_own + 1U);
    EXPECT_EQ(texts[InsulationText::leaks_in_circuit].id, "leaks-in-circuit");
    EXPECT_EQ(texts[InsulationText::only_live].id, "only-live");
    EXPECT_EQ(texts[InsulationText::first_own].id, "own");
    for (const TextEntry& text : texts) EXPECT_FALSE(text.english.empty()) << text.id;
  }
}

TEST(Insulation, TheReadingThatCounts) {
  EXPECT_EQ(judged({{"0.2 Mohm"}, {"20 Mohm"}}).outcome, Outcome::out_of_limits);  // a leak at one terminal
  EXPECT_EQ(judged({{"20 Mohm", ""}, {"40 Mohm"}}).text, InsulationText::insulates);
  EXPECT_EQ(judged({{.value = "0.2 Mohm", .moisture = Moisture::wet}, {.value = "20 Mohm", .moisture = Moisture::dry}})
                .outcome,
            Outcome::within_limits);
  EXPECT_EQ(
      judged({{.value = "20 Mohm", .moisture = Moisture::dry}, {.value = "0.2 Mohm", .moisture = Moisture::wet}}).text,
      InsulationText::leaks_while_wet);
}

TEST(Insulation, TheMeanOfRepeatsHidesNoLeak) {
  const auto repeated = [](std::string_view first, std::vector<double> repeats, bool and_five_megohm = false) {
    Reading reading{.measurand = "resistance", .observed = parse_observed(first, Dimension::resistance, {})};
    reading.repeats = std::move(repeats);
    reading.conditions.push_back({"test_voltage", parse_stated_value("500 V", Dimension::voltage)});
    reading.connection = Connection::lead_off;
    reading.supply = Supply::proved_dead;
    std::vector<Reading> readings{reading};
    if (and_five_megohm) {
      readings.push_back(reading);
      readings.back().observed = parse_observed("5 Mohm", Dimension::resistance, {});
      readings.back().repeats.clear();
    }
    const Evidence evidence(descriptor(), readings, MeterSet({testing::basic_meter("0 ohm")}));
    Findings findings;
    judge_insulation_reading(*decisive_insulation_reading(evidence, rule), rule, evidence, {}, findings);
    return findings.findings().front();
  };
  // 0.9 Mohm at one terminal, 50 Mohm at three others: their mean would pass.
  const Finding hidden = repeated("0.9 Mohm", {50e6, 50e6, 50e6});
  EXPECT_EQ(hidden.text, InsulationText::repeats_differ);
  EXPECT_EQ(hidden.outcome, Outcome::undecided);
  EXPECT_TRUE(hidden.holds_back);
  EXPECT_EQ(repeated("0.9 Mohm", {50e6, 50e6, 50e6}, true).text, InsulationText::repeats_differ);
  EXPECT_EQ(repeated("30 Mohm", {40e6}).outcome, Outcome::within_limits);  // it grows while it is tested
}

TEST(Insulation, LiveReadingsAreNone) {
  const Evidence live = evidence_of({{.value = "20 Mohm", .supply = Supply::live}});
  EXPECT_EQ(decisive_insulation_reading(live, rule), nullptr);
  EXPECT_TRUE(insulation_was_read_live(live, rule));
  EXPECT_FALSE(insulation_was_read_live(evidence_of({{"20 Mohm"}}), rule));
}

}  // namespace
}  // namespace ohmwright
