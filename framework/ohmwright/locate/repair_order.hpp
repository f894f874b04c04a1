#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

/// One thing to do about a fault, of which exactly one is there.
struct RepairAction {
  double probability = 0.0;  ///< that it cures [0…1]
  double cost = 0.0;         ///< minutes or money, above 0
};

/// The order with the least expected cost, when the causes exclude each other, costs do not depend on the order and one
/// sees after each action whether it helped: by probability per cost.
/// Source: D. Heckerman, J. S. Breese, K. Rommelse, Decision-theoretic troubleshooting, Comm. ACM 38(3), 1995.
std::vector<std::size_t> repair_order(std::span<const RepairAction> actions);

/// Cost to be expected when the actions are taken in that order until one cures [unit of the costs].
double expected_cost(std::span<const RepairAction> actions, std::span<const std::size_t> order);

/// Parts to replace one after the other, with a test after each, where no reading tells them apart.
struct RepairPlan {
  std::vector<std::size_t> parts;
  double minutes = 0.0;  ///< to be expected until it runs, or all were tried [min]
};

/// Of the parts that may be at fault alone, with at least one in twenty.
RepairPlan repair_plan(const FaultList& faults, const Diagnosis& diagnosis, const WorkTimes& times);

}  // namespace ohmwright::locate
