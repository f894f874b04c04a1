#pragma once

#include <cstddef>
#include <span>
#include <vector>

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

}  // namespace ohmwright::locate
