#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/safety/earth_bond.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

constexpr double share_of_a_bond_tester = 0.3;
constexpr double ohms_of_probes = 0.5;

}  // namespace

EarthBondVerdict judge_earth_bond(const StatedValue& bond, const std::optional<StatedValue>& test_current,
                                  double confidence) {
  const double ohm = bond.value.value_in_si();
  if (!(ohm >= 0.0)) throw InputError("an earth bond is a resistance of 0 or more");
  const double ampere = test_current ? test_current->value.value_in_si() : 0.0;
  if (!(ampere >= 0.0)) throw InputError("a test current is 0 or more");
  EarthBondVerdict verdict;
  verdict.lacks_current = ampere < least_bond_test_current;
  const double stated = bond.half_width.value_or(share_of_a_bond_tester * ohm);
  const double half_width = verdict.lacks_current ? std::max(stated, ohms_of_probes) : stated;
  Estimate estimate(ohm);
  estimate.add_term(0, half_width / std::sqrt(3.0));  // GUM 4.3.7
  const std::array sources{ErrorSource{"bond-tester", {}, Shape::rectangular}};
  const Conformance conformance =
      conformance_of(estimate, sources, -std::numeric_limits<double>::infinity(), most_earth_bond_with_cord);
  verdict.outcome = decide(conformance, confidence);
  verdict.probability_within = conformance.within;
  if (verdict.lacks_current && verdict.outcome == Outcome::within_limits) verdict.outcome = Outcome::undecided;
  return verdict;
}

}  // namespace ohmwright
