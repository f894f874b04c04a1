#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include <ohmwright/locate/expectation.hpp>
#include <ohmwright/locate/information.hpp>
#include <ohmwright/locate/repair_order.hpp>
#include <ohmwright/locate/search.hpp>

#include "bench_kinds.hpp"
#include "small_world.hpp"
#include "timer_appliance.hpp"

// The engine's own inference and choice of the next measurement against published examples: the candidates and their
// priors are those of `FaultList`, what is believed goes through `weigh` and `sum_up` as in a search, what a step would
// tell through `Expectation`. Where only the statement is published, the numbers were enumerated by two programs that
// share nothing with this one.

namespace ohmwright::locate {
namespace {

using testing::contact_kind;
using testing::ContactPart;

/// Parts that each fail in one way, with 0.01, whatever the others do: odds of 1 to 99.
class PartsOfOneFault {
 public:
  explicit PartsOfOneFault(std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      PlacedPart part;
      part.id = part.title = std::to_string(i);
      part.kind = &contact_kind();
      part.part = std::make_shared<ContactPart>(not_found);
      part.nodes.resize(2);
      appliance_.parts.push_back(std::move(part));
    }
    PriorSettings settings;
    settings.odds_of_unit_weight = 0.01 / 0.99;
    settings.nothing_wrong_weight = 1.0 / settings.odds_of_unit_weight;
    settings.most_faults = count;
    faults_.emplace(
        appliance_, settings,
        WeightOverrides{
            {"bench-contact.stuck-open", 1.0}, {"bench-contact.welded", 0.0}, {"bench-contact.burnt", 0.0}});
  }
  PartsOfOneFault(const PartsOfOneFault&) = delete;
  PartsOfOneFault& operator=(const PartsOfOneFault&) = delete;
  ~PartsOfOneFault() = default;

  const FaultList& faults() const { return *faults_; }

  std::vector<double> priors() const {
    std::vector<double> p;
    for (const Candidate& candidate : faults_->candidates()) p.push_back(candidate.prior);
    return p;
  }

  /// By candidate: which parts are at fault.
  std::vector<AnswerKey> answers() const {
    std::vector<AnswerKey> keys;
    for (const Candidate& candidate : faults_->candidates()) keys.push_back(faults_->answer_of(candidate));
    return keys;
  }

 private:
  Appliance appliance_;
  std::optional<FaultList> faults_;
};

bool holds(const AnswerKey& answer, std::size_t part) {
  return std::find(answer.first.begin(), answer.first.end(), part) != answer.first.end();
}

std::vector<std::size_t> each_its_own(std::size_t count) {
  std::vector<std::size_t> kinds(count);
  std::iota(kinds.begin(), kinds.end(), std::size_t{0});
  return kinds;
}

/// Entropy to be expected after an observation with these outcomes, by likelihoods of each hypothesis [bit].
double expected_entropy(const Hypotheses& all, const std::vector<std::vector<double>>& outcomes) {
  const std::vector<std::size_t> kinds = each_its_own(all.probabilities.size());
  Expectation expectation(all, kinds, 1.1);
  for (const std::vector<double>& likelihoods : outcomes) expectation.add(likelihoods);
  return all.entropy - expectation.expected().gain_bits;
}

// Four inverters in a row, each faulty with 0.01; in = 1 is put in and out = 0 seen, where 1 was to be expected. A
// faulty output is 0 or 1 with equal probability. The two prior probabilities are printed in a university thesis on
// entropy-guided probing; the entropies were enumerated.
class FourInverters : public ::testing::Test {
 protected:
  static constexpr std::size_t count = 4;
  PartsOfOneFault world{count};
  std::vector<AnswerKey> sets = world.answers();

  /// Probability that the outputs after the stages read `outputs` with that set faulty, for an input of 1.
  static double probability(const AnswerKey& set, const std::array<int, count>& outputs) {
    double p = 1.0;
    int in = 1;
    for (std::size_t stage = 0; stage < count; ++stage) {
      if (holds(set, stage))
        p *= 0.5;
      else if (outputs.at(stage) == in)
        return 0.0;
      in = outputs.at(stage);
    }
    return p;
  }

  /// P(output of `stage` is 0 or 1, last output is 0) for a set.
  static std::array<double, 2> joint(const AnswerKey& set, std::size_t stage) {
    std::array<double, 2> seen{0.0, 0.0};
    for (unsigned bits = 0; bits < 16; ++bits) {
      std::array<int, count> outputs{};
      for (std::size_t i = 0; i < count; ++i) outputs.at(i) = static_cast<int>((bits >> i) & 1U);
      if (outputs.back() == 0) seen.at(static_cast<std::size_t>(outputs.at(stage))) += probability(set, outputs);
    }
    return seen;
  }
};

TEST_F(FourInverters, PriorsAreThePrintedOnes) {
  EXPECT_NEAR(world.priors()[0], 0.960596010, 5e-10);
  EXPECT_NEAR(world.priors()[1], 0.00970299, 5e-10);
}

TEST_F(FourInverters, TheMiddleIsProbedNext) {
  std::vector<double> p = world.priors();
  std::vector<double> seen_0;
  for (const AnswerKey& set : sets) seen_0.push_back(joint(set, 0)[0] + joint(set, 0)[1]);
  EXPECT_NEAR(weigh(p, seen_0), 0.019701995, 1e-9);
  EXPECT_NEAR(p[1], 0.2462438448, 1e-9);
  EXPECT_NEAR(p[5], 0.0024873116, 1e-9);
  const Hypotheses all(p, sets);
  EXPECT_NEAR(all.entropy, 2.122113598, 1e-8);
  const auto after_probing = [&](std::size_t stage) {
    std::vector<std::vector<double>> outcomes(2);
    for (const AnswerKey& set : sets)
      for (std::size_t value = 0; value < 2; ++value) {
        const double seen = joint(set, stage)[0] + joint(set, stage)[1];
        outcomes[value].push_back(seen > 0.0 ? joint(set, stage).at(value) / seen : 0.0);
      }
    return expected_entropy(all, outcomes);
  };
  EXPECT_NEAR(after_probing(0), 1.318353024, 1e-8);
  EXPECT_NEAR(after_probing(1), 1.132163595, 1e-8);
  EXPECT_NEAR(after_probing(2), 1.318353024, 1e-8);
}

// Three multipliers and two adders, A = 3, B = 2, C = 2, D = 3, E = 3; F reads 10 where 12 is right, G 12.
// J. de Kleer, B. C. Williams, Artificial Intelligence 32 (1987) (the circuit and its conflicts); probabilities
// enumerated, with 0.01 a component and a set that is consistent or not.
TEST(MultipliersAndAdders, ProbabilitiesOfTheParts) {
  enum : std::size_t { A1, A2, M1, M2, M3 };
  const std::vector<std::vector<std::size_t>> conflicts{{A1, M1, M2}, {A1, A2, M1, M3}};
  const PartsOfOneFault world(5);
  std::vector<double> consistent;
  for (const AnswerKey& set : world.answers()) {
    const bool explains = std::all_of(conflicts.begin(), conflicts.end(), [&](const auto& conflict) {
      return std::any_of(conflict.begin(), conflict.end(), [&](std::size_t part) { return holds(set, part); });
    });
    consistent.push_back(explains ? 1.0 : 0.0);
  }
  EXPECT_EQ(std::accumulate(consistent.begin(), consistent.end(), 0.0), 27.0);
  Diagnosis diagnosis;
  diagnosis.candidates = world.priors();
  EXPECT_NEAR(weigh(diagnosis.candidates, consistent), 0.0200950399, 1e-10);
  sum_up(world.faults(), diagnosis);
  EXPECT_NEAR(diagnosis.parts[A1], 0.497635240, 1e-8);
  EXPECT_NEAR(diagnosis.parts[M1], 0.497635240, 1e-8);
  EXPECT_NEAR(diagnosis.parts[M2], 0.019608814, 1e-8);
  EXPECT_NEAR(diagnosis.parts[A2], 0.014780264, 1e-8);
  EXPECT_NEAR(diagnosis.parts[M3], 0.014780264, 1e-8);
  EXPECT_NEAR(diagnosis.candidates[1], 0.478026426, 1e-8);  // A1 alone
}

// Four suspects: heater open 0.35, thermostat open 0.30, control 0.20, wiring 0.15, as an appliance of four parts in a
// row of which one is open. Enumerated; minutes by dynamic programming over all subsets.
class FourSuspects : public ::testing::Test {
 protected:
  FourSuspects() {
    appliance.nodes = {"L", "D", "X", "H", "N"};
    appliance.supply = {parse_stated_value("120 V", Dimension::voltage),
                        parse_stated_value("60 Hz", Dimension::frequency), 0, 4, std::nullopt};
    appliance.zones = {{"coil", "coil", parse_stated_value("-18 degC", Dimension::temperature)}};
    add("control", contact_kind(), std::make_shared<ContactPart>(testing::position_defrost), 0, 1);
    add("thermostat", contact_kind(), std::make_shared<ContactPart>(not_found), 1, 2);
    add("heater", testing::resistor_kind(), std::make_shared<testing::ResistorPart>(32.0, 0.05), 2, 3);
    add("wiring", testing::resistor_kind(), std::make_shared<testing::ResistorPart>(0.05, 0.0), 3, 4);
    appliance.parts[0].states = {{0, testing::position_defrost}};
    read("D-X", 1, 2, 4.0);
    read("X-N", 2, 4, 6.0);
    read("X-H", 2, 3, 3.0);
    read("L-D", 0, 1, 8.0);
    settings.priors.most_faults = 1;
    settings.priors.nothing_wrong_weight = 0.0;
    settings.weights = {{"heater.open", 0.35},         {"thermostat.stuck-open", 0.30}, {"control.stuck-open", 0.20},
                        {"wiring.open", 0.15},         {"bench-resistor.high", 0.0},    {"bench-resistor.leaks", 0.0},
                        {"bench-contact.welded", 0.0}, {"bench-contact.burnt", 0.0}};
    settings.steps.times = {0.0, 0.0, 0.0};
    settings.readings.misread_share = 0.0;
    settings.readings.damp_share = 0.0;
  }

  void add(const std::string& id, const LoadedKind& kind, std::shared_ptr<const Part> made, std::size_t from,
           std::size_t to) {
    PlacedPart part;
    part.id = part.title = id;
    part.kind = &kind;
    part.part = std::move(made);
    part.nodes.assign(kind.descriptor().terminals.size(), std::nullopt);
    part.nodes[0] = from;
    part.nodes[1] = to;
    part.zone = 0;
    appliance.parts.push_back(std::move(part));
  }

  void read(const std::string& id, std::size_t from, std::size_t to, double minutes) {
    TestPoint point;
    point.id = point.title = id;
    point.from.node = from;
    point.to.node = to;
    point.minutes = minutes;
    appliance.test_points.push_back(std::move(point));
  }

  Search search() const { return {appliance, meter, site_as_found(appliance), settings}; }

  const Step& step_at(const Search& search, std::string_view test_point) const {
    const std::size_t point = testing::test_point_named(appliance, test_point);
    const auto found = std::find_if(search.steps().begin(), search.steps().end(),
                                    [&](const Step& step) { return step.measurement.test_point == point; });
    EXPECT_NE(found, search.steps().end()) << test_point;
    return *found;
  }

  Appliance appliance;
  Meter meter = testing::exact_meter();
  SearchSettings settings;
};

TEST_F(FourSuspects, GainOfEachTestAndPerMinute) {
  Search of_four = search();
  of_four.think();
  EXPECT_NEAR(entropy_in_bits(of_four.diagnosis().parts), 1.926120747, 1e-8);
  EXPECT_NEAR(step_at(of_four, "D-X").gain_bits, 0.881290899, 1e-8);
  EXPECT_NEAR(step_at(of_four, "X-N").gain_bits, 1.0, 1e-8);
  EXPECT_NEAR(step_at(of_four, "X-H").gain_bits, 0.934068055, 1e-8);
  EXPECT_NEAR(step_at(of_four, "L-D").gain_bits, 0.721928095, 1e-8);
  EXPECT_NEAR(step_at(of_four, "D-X").gain_per_minute(), 0.220323, 5e-7);
  EXPECT_NEAR(step_at(of_four, "X-N").gain_per_minute(), 0.166667, 5e-7);
  EXPECT_NEAR(step_at(of_four, "X-H").gain_per_minute(), 0.311356, 5e-7);
  EXPECT_NEAR(step_at(of_four, "L-D").gain_per_minute(), 0.090241, 5e-7);
  EXPECT_EQ(of_four.steps().front().measurement.test_point, testing::test_point_named(appliance, "X-H"));
}

TEST_F(FourSuspects, MinutesToASingleSuspect) {
  Search of_four = search();
  testing::SmallWorld world(of_four);
  EXPECT_NEAR(world.minutes_of_policy(), 7.7, 1e-9);
  EXPECT_NEAR(world.least_minutes(), 7.7, 1e-9);
}

// Two in a hundred readings are of the other outcome.
TEST_F(FourSuspects, GainWithMisreadings) {
  const std::vector<AnswerKey> each{{{0}, 0}, {{1}, 0}, {{2}, 0}, {{3}, 0}};
  const Hypotheses all({0.35, 0.30, 0.20, 0.15}, each);
  const std::vector<std::vector<double>> parts_thermostat{{0.02, 0.98, 0.02, 0.02}, {0.98, 0.02, 0.98, 0.98}};
  const std::vector<std::vector<double>> parts_heater_and_wiring{{0.98, 0.02, 0.02, 0.98}, {0.02, 0.98, 0.98, 0.02}};
  EXPECT_NEAR(all.entropy - expected_entropy(all, parts_thermostat), 0.749410754, 1e-8);
  EXPECT_NEAR(all.entropy - expected_entropy(all, parts_heater_and_wiring), 0.858559457, 1e-8);
}

// A misreading is OL half of the time here, whatever is there: so two in a hundred read OL that should not.
TEST_F(FourSuspects, AMisreadingKeepsOneReadingFromBeingProof) {
  settings.readings.misread_share = 0.04;
  settings.readings.over_range_share = 0.5;
  Search of_four = search();
  of_four.add({{testing::test_point_named(appliance, "D-X"), {}}, OverRange{}, {}});
  of_four.think();
  EXPECT_NEAR(of_four.diagnosis().parts[testing::part_named(appliance, "thermostat")], 0.954545, 5e-7);
}

// D. Heckerman, J. S. Breese, K. Rommelse, Comm. ACM 38(3), 1995: the rule. Numbers by all six orders.
TEST(RepairOrder, IsByProbabilityPerCost) {
  const std::vector<RepairAction> actions{{0.5, 20.0}, {0.3, 5.0}, {0.2, 10.0}};
  const auto order = repair_order(actions);
  EXPECT_EQ(order, (std::vector<std::size_t>{1, 0, 2}));
  EXPECT_NEAR(expected_cost(actions, order), 21.0, 1e-12);
  std::vector<std::size_t> other{0, 1, 2};
  std::vector<double> costs;
  do costs.push_back(expected_cost(actions, other));
  while (std::next_permutation(other.begin(), other.end()));
  const std::vector<double> by_hand{24.5, 27.5, 21.0, 22.0, 26.5, 24.0};  // ABC, ACB, BAC, BCA, CAB, CBA
  std::vector<double> sorted = by_hand;
  std::sort(sorted.begin(), sorted.end());
  std::sort(costs.begin(), costs.end());
  for (std::size_t i = 0; i < costs.size(); ++i) EXPECT_NEAR(costs[i], sorted[i], 1e-12);
}

}  // namespace
}  // namespace ohmwright::locate
