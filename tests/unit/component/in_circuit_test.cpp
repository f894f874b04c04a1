#include <gtest/gtest.h>

#include <ohmwright/component/in_circuit.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

/// The kind of the framework's tests, with its ohms read with swapped probes too. A good one has 90 to 110 ohm.
const Descriptor& descriptor() {
  static const Descriptor with_swapped = [] {
    Descriptor d = testing::test_descriptor();
    d.measurands.push_back({"resistance_swapped", "Resistance, probes swapped", Dimension::resistance, "ohm"});
    return d;
  }();
  return with_swapped;
}

constexpr std::uint16_t resistance = 0;
constexpr std::uint16_t swapped = 2;
constexpr std::uint16_t rule = 2;

struct Read {
  std::string_view value;
  std::string_view measurand = "resistance";
  Supply supply = Supply::proved_dead;
  Connection connection = Connection::in_circuit;
};

Finding judged(const std::vector<Read>& reads, ReadAlone alone = ReadAlone::no, bool known = true) {
  std::vector<Reading> readings;
  for (const Read& read : reads) {
    Reading reading{.measurand = std::string(read.measurand),
                    .observed = parse_observed(read.value, Dimension::resistance, {})};
    reading.connection = read.connection;
    reading.supply = read.supply;
    readings.push_back(std::move(reading));
  }
  const Evidence evidence(descriptor(), readings, MeterSet({testing::basic_meter("0 ohm")}));
  const auto is_of_it = [](const PreparedReading& reading) { return reading.measurand == resistance; };
  const auto see = [&](const PreparedReading& reading) -> std::optional<SeenInCircuit> {
    if (!known) return std::nullopt;
    const Estimate lower(90.0);
    SeenInCircuit seen = seen_between(reading, &lower, Estimate(110.0), evidence.sources());
    seen.upper = 110.0;
    seen.read_alone = alone;
    return seen;
  };
  Findings findings;
  judge_in_circuit({.rule = rule, .is_of_it = is_of_it, .swapped = swapped, .see = see}, evidence, {}, findings);
  EXPECT_EQ(findings.findings().size(), 1U);
  return findings.findings().front();
}

const std::vector<Read> open_both_ways{{"OL"}, {"OL", "resistance_swapped"}};

TEST(InCircuit, CondemnsFromAboveAloneDeadAndSwapped) {
  const Finding finding = judged(open_both_ways);
  EXPECT_EQ(finding.outcome, Outcome::out_of_limits);
  EXPECT_EQ(finding.text, InCircuitText::everything_between_probes);
  EXPECT_EQ(finding.probability, 0.0);
  EXPECT_EQ(judged({{"200 ohm"}, {"201 ohm", "resistance_swapped"}}).outcome, Outcome::out_of_limits);
  EXPECT_EQ(judged({{"OL"}}).text, InCircuitText::high_not_proved);
  EXPECT_EQ(judged({{"OL", "resistance", Supply::unplugged}, {"OL", "resistance_swapped"}}).text,
            InCircuitText::high_not_proved);
  EXPECT_EQ(judged({{"200 ohm"}, {"150 ohm", "resistance_swapped"}}).text, InCircuitText::swapped_differ);
  for (const std::string_view low_or_right : {"20 ohm", "100 ohm"})
    EXPECT_EQ(judged({{low_or_right}, {low_or_right, "resistance_swapped"}}).outcome, Outcome::undecided);
  EXPECT_EQ(judged({{"20 ohm"}}).text, InCircuitText::low_means_nothing);
  EXPECT_EQ(judged({{"100 ohm"}}).text, InCircuitText::clears_nothing);
}

TEST(InCircuit, NeverCondemnsWhatIsRightAlone) {
  EXPECT_EQ(judged(open_both_ways, ReadAlone::right).text, InCircuitText::right_alone);
  EXPECT_EQ(judged(open_both_ways, ReadAlone::right).outcome, Outcome::undecided);
  const Finding perhaps = judged(open_both_ways, ReadAlone::unstated);
  EXPECT_EQ(perhaps.text, InCircuitText::right_where_unstated);
  EXPECT_TRUE(perhaps.holds_back);  // nor does it pass
  EXPECT_EQ(judged(open_both_ways, ReadAlone::wrong).text, InCircuitText::beside_others);
  EXPECT_EQ(judged({{"100 ohm"}}, ReadAlone::right).text, InCircuitText::beside_others);
}

TEST(InCircuit, SaysWhyItDoesNotJudge) {
  EXPECT_EQ(judged(open_both_ways, ReadAlone::no, false).text, InCircuitText::not_comparable);
  EXPECT_EQ(judged({{"OL", "resistance", Supply::live}}).text, InCircuitText::only_live);
  EXPECT_EQ(judged({{"OL", "resistance", Supply::proved_dead, Connection::lead_off}}).text,
            InCircuitText::no_in_circuit);
  EXPECT_EQ(judged({}).outcome, Outcome::silent);
}

TEST(InCircuit, TextsStandInTheOrderOfTheirNames) {
  const RuleDescriptor made = in_circuit_rule({.everything_between_probes = "all of it", .clears_nothing = "nothing"},
                                              {{"own", "the kind's own"}});
  ASSERT_EQ(made.texts.size(), InCircuitText::first_own + 1U);
  EXPECT_EQ(made.texts[InCircuitText::everything_between_probes].english, "all of it");
  EXPECT_EQ(made.texts[InCircuitText::right_alone].id, "right-alone");
  EXPECT_EQ(made.texts[InCircuitText::first_own].id, "own");
  for (const TextEntry& text : made.texts) EXPECT_FALSE(text.english.empty()) << text.id;
}

}  // namespace
}  // namespace ohmwright
