#include <algorithm>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/swapped_probes.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using testing::basic_meter;
using testing::resistance_reading;
using testing::test_descriptor;

/// The kind of these tests, whose ohms can also be read with the probes swapped.
Descriptor with_swapped_probes() {
  Descriptor descriptor = test_descriptor();
  descriptor.measurands.push_back({"resistance_swapped", "Swapped", Dimension::resistance, "ohm", true});
  return descriptor;
}

Reading closed_reading() { return {.measurand = "resistance", .observed = ContactState::closed}; }

Reading swapped_reading(std::string_view text) {
  Reading reading = resistance_reading(text);
  reading.measurand = "resistance_swapped";
  return reading;
}

/// How many of the two readings can still be judged.
std::size_t judged_of(Reading plain, Reading swapped, Connection connection = Connection::lead_off) {
  plain.connection = swapped.connection = connection;
  const std::vector<Reading> readings{plain, swapped};
  const Evidence evidence(with_swapped_probes(), readings, MeterSet({basic_meter("0.3 ohm")}));
  const auto prepared = evidence.readings();
  return prepared.size() - static_cast<std::size_t>(std::count_if(prepared.begin(), prepared.end(), is_set_aside));
}

TEST(SwappedProbes, APartThatReadsOtherwiseWithItsProbesSwappedIsNotJudged) {
  // A passive part is reciprocal: its ohms do not ask for the direction of the current (Kirchhoff, Ohm).
  EXPECT_EQ(judged_of(resistance_reading("10.9 kohm"), swapped_reading("14 kohm")), 0U);
  EXPECT_EQ(judged_of(resistance_reading("32 ohm"), swapped_reading("90 ohm")), 0U);
  EXPECT_EQ(judged_of(closed_reading(), swapped_reading("OL")), 0U);
  EXPECT_EQ(judged_of(resistance_reading("32 ohm"), swapped_reading("90 ohm"), Connection::unstated), 0U);
}

TEST(SwappedProbes, SwappedProbesThatAgreeWithinTheirDoubtAreKept) {
  EXPECT_EQ(judged_of(resistance_reading("10.90 kohm"), swapped_reading("10.95 kohm")), 2U);
  EXPECT_EQ(judged_of(resistance_reading("0.3 ohm"), swapped_reading("0.9 ohm")), 2U);  // contacts of the probes
  EXPECT_EQ(judged_of(closed_reading(), swapped_reading("0.4 ohm")), 2U);
  EXPECT_EQ(judged_of(resistance_reading("OL"), swapped_reading("5 Mohm")), 2U);
}

TEST(SwappedProbes, SwappedProbesInCircuitAreLeftToTheKind) {
  EXPECT_EQ(judged_of(resistance_reading("15 kohm"), swapped_reading("9 kohm"), Connection::in_circuit), 2U);
}

TEST(SwappedProbes, ReadingsAtOtherTemperaturesDoNotContradictEachOther) {
  Reading cold = resistance_reading("32.6 kohm");
  cold.conditions.push_back({"part_temperature", parse_stated_value("0 degC", Dimension::temperature)});
  Reading warm = swapped_reading("10.9 kohm");
  warm.conditions.push_back({"part_temperature", parse_stated_value("23 degC", Dimension::temperature)});
  EXPECT_EQ(judged_of(cold, warm), 2U);
}

}  // namespace
}  // namespace ohmwright
