#include "defrost_circuit.hpp"

#include <array>
#include <limits>
#include <optional>
#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>

#include "ngspice.hpp"

// What a meter shows between the access points of a defrost circuit, fault by fault.
// Source of every figure: computed twice, nodal analysis and ngspice. Tolerance: half of the last digit printed.

namespace ohmwright::circuit {
namespace {

using testing_support::DefrostCircuit;
using testing_support::NgspiceBatch;

constexpr double over_range = -1.0;

BranchModel ohms(double value) { return resistance(Resistance::from_value(value)); }

struct OhmsRow {
  const char* fault;
  std::vector<Change> changes;
  std::array<double, 8> ohms;
};

constexpr std::array<std::array<std::string_view, 2>, 8> access{
    {{"D", "X"}, {"X", "N"}, {"D", "N"}, {"L", "D"}, {"L", "N"}, {"H1", "H2"}, {"X", "H1"}, {"R", "N"}}};

std::vector<NodePair> access_pairs() {
  std::vector<NodePair> pairs;
  for (const auto& names : access) pairs.push_back({DefrostCircuit::node(names[0]), DefrostCircuit::node(names[1])});
  return pairs;
}

std::vector<OhmsRow> rows_in_defrost(const DefrostCircuit& c) {
  const double rn = 5.714286;
  return {
      {"none, coil cold", {}, {0.05, 31.971715, 32.021315, 0.05, 32.070915, 31.872513, 0.05, rn}},
      {"none, coil warm", {{c.bimetal, open()}}, {8032.15, 32.1, 8000.05, 0.05, 8000, 32, 0.05, rn}},
      {"heater open", {{c.heater, open()}}, {0.05, 8000.1, 8000.05, 0.05, 8000, 8000.2, 0.05, rn}},
      {"heater turns shorted 20 %",
       {{c.heater, ohms(25.6)}},
       {0.05, 25.617704, 25.667384, 0.05, 25.717062, 25.518343, 0.05, rn}},
      {"bimetal stuck open, coil cold", {{c.bimetal, open()}}, {8032.15, 32.1, 8000.05, 0.05, 8000, 32, 0.05, rn}},
      {"bimetal contact 20 ohm",
       {{c.bimetal, ohms(20.0)}},
       {19.950324, 31.972033, 51.762896, 0.05, 51.812249, 31.872829, 0.05, rn}},
      {"splice 5 ohm", {{c.splice, ohms(5.0)}}, {0.05, 36.879205, 36.928744, 0.05, 36.978282, 31.872592, 4.996889, rn}},
      {"lead H2-N open", {{c.heater_lead, open()}}, {0.05, 8000.1, 8000.05, 0.05, 8000, 32, 0.05, rn}},
      {"defrost contact open", {{c.defrost_contact, open()}}, {0.05, 32.1, 32.15, 8032.15, 8000, 32, 0.05, rn}},
      {"run contact welded",
       {{c.run_contact, ohms(0.05)}},
       {0.049934, 4.955471, 4.920843, 0.049934, 4.886083, 5.024332, 0.049934, 4.851252}},
      {"run welded and bimetal open",
       {{c.run_contact, ohms(0.05)}, {c.bimetal, open()}},
       {37.910135, 32.1, 5.810135, 0.05, 5.760135, 32, 0.05, 5.710207}},
      {"timer motor open", {{c.timer_motor, open()}}, {0.05, 32.1, 32.15, 0.05, 32.2, 32, 0.05, rn}},
      {"bimetal and timer motor open",
       {{c.bimetal, open()}, {c.timer_motor, open()}},
       {over_range, 32.1, over_range, 0.05, over_range, 32, 0.05, rn}},
  };
}

/// Half of the last digit: six decimals are printed.
void expect_printed(const std::optional<Resistance>& reading, double printed) {
  ASSERT_EQ(reading.has_value(), printed != over_range);
  if (!reading) return;
  EXPECT_NEAR(reading->value(), printed, 0.5000001e-6);
}

TEST(DefrostCircuit, OhmsInDefrost) {
  const DefrostCircuit circuit;
  const std::vector<NodePair> pairs = access_pairs();
  const Ohmmeter ohmmeter(circuit.network, pairs);
  for (const OhmsRow& row : rows_in_defrost(circuit)) {
    Ohmmeter::Variant variant = ohmmeter.with(row.changes);
    const Ohmmeter prepared(circuit.network, pairs, row.changes);
    for (std::size_t p = 0; p < pairs.size(); ++p) {
      SCOPED_TRACE(testing::Message() << row.fault << ", " << access[p][0] << "-" << access[p][1]);
      expect_printed(variant.reading(p), row.ohms[p]);
      expect_printed(prepared.reading(p), row.ohms[p]);
    }
  }
}

TEST(DefrostCircuit, OhmsInRun) {
  const DefrostCircuit circuit;
  const std::vector<NodePair> pairs = access_pairs();
  const std::vector<Change> run{{circuit.defrost_contact, open()}, {circuit.run_contact, ohms(0.05)}};
  const Ohmmeter ohmmeter(circuit.network, pairs, run);
  const double healthy[] = {0.05, 32.1, 32.15, 37.910135, 5.760135};
  for (std::size_t p = 0; p < 5; ++p) expect_printed(ohmmeter.reading(p), healthy[p]);
  expect_printed(ohmmeter.reading(7), 5.710207);
  const std::vector<Change> bimetal{{circuit.bimetal, open()}};
  Ohmmeter::Variant bimetal_open = ohmmeter.with(bimetal);
  for (const std::size_t p : {0U, 2U, 3U}) EXPECT_FALSE(bimetal_open.reading(p));
  const std::vector<Change> heater{{circuit.heater, open()}};
  Ohmmeter::Variant heater_open = ohmmeter.with(heater);
  for (const std::size_t p : {1U, 2U, 3U}) EXPECT_FALSE(heater_open.reading(p));
}

TEST(DefrostCircuit, OhmsInDefrostAgainstNgspice) {
  const DefrostCircuit circuit;
  const std::vector<NodePair> pairs = access_pairs();
  NgspiceBatch batch;
  const std::vector<OhmsRow> rows = rows_in_defrost(circuit);
  for (const OhmsRow& row : rows)
    for (const NodePair& pair : pairs) batch.add_ohms(circuit.network, row.changes, pair);
  const auto answers = batch.run();
  if (!answers) GTEST_SKIP() << "ngspice is not installed";
  const Ohmmeter ohmmeter(circuit.network, pairs);
  std::size_t answered = 0;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    Ohmmeter::Variant variant = ohmmeter.with(rows[r].changes);
    for (std::size_t p = 0; p < pairs.size(); ++p) {
      const auto& answer = (*answers)[r * pairs.size() + p];
      if (!answer) continue;
      ++answered;
      EXPECT_NEAR(variant.reading(p).value().value(), answer->between_probes.real(),
                  1e-9 * answer->between_probes.real())
          << rows[r].fault << ", " << access[p][0] << "-" << access[p][1];
    }
  }
  EXPECT_GE(answered, 90U);
}

struct VoltsRow {
  const char* fault;
  std::vector<Change> changes;
  std::array<double, 4> volts;  ///< D, X, H1, H2 against N of the plug
};

TEST(DefrostCircuit, VoltsToTheNeutralOfThePlug) {
  const DefrostCircuit c(true);
  const VoltsRow rows[] = {
      {"none", {}, {119.814, 119.628, 119.442, 0.373}},
      {"heater open", {{c.heater, open()}}, {120, 120, 120, 0.001}},
      {"bimetal open", {{c.bimetal, open()}}, {120, 0.001, 0.001, 0.001}},
      {"bimetal 20 ohm", {{c.bimetal, ohms(20.0)}}, {119.885, 73.908, 73.793, 0.231}},
      {"splice 5 ohm", {{c.splice, ohms(5.0)}}, {119.839, 119.677, 103.548, 0.323}},
      {"heater lead open", {{c.heater_lead, open()}}, {120, 120, 120, 120}},
      {"supply neutral open", {{c.neutral_lead, open()}}, {120, 120, 120, 120}},
      {"defrost contact open", {{c.defrost_contact, open()}}, {0.001, 0.001, 0.001, 0.001}},
  };
  const NodeIndex plug = DefrostCircuit::node("S");
  const NodePair pairs[] = {{DefrostCircuit::node("D"), plug},
                            {DefrostCircuit::node("X"), plug},
                            {DefrostCircuit::node("H1"), plug},
                            {DefrostCircuit::node("H2"), plug},
                            {DefrostCircuit::node("N"), plug}};
  const double infinite = std::numeric_limits<double>::infinity();
  for (const double input : {infinite, 10e6}) {  // a 10 Mohm meter changes no digit here
    const Voltmeter voltmeter(c.network, Frequency::from_value(60.0), Resistance::from_value(input), pairs);
    for (const VoltsRow& row : rows) {
      Voltmeter::Variant variant = voltmeter.with(row.changes);
      for (std::size_t p = 0; p < row.volts.size(); ++p)
        EXPECT_NEAR(magnitude(variant.reading(p)).value(), row.volts[p], 0.5e-3) << row.fault << ", point " << p;
    }
    const std::vector<Change> neutral_open{{c.neutral_lead, open()}};
    EXPECT_NEAR(magnitude(voltmeter.with(neutral_open).reading(4)).value(), 120.0, 0.5e-3);
  }
}

}  // namespace
}  // namespace ohmwright::circuit
