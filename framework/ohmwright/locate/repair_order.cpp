#include <algorithm>
#include <numeric>

#include <ohmwright/locate/repair_order.hpp>

namespace ohmwright::locate {

std::vector<std::size_t> repair_order(std::span<const RepairAction> actions) {
  std::vector<std::size_t> order(actions.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return actions[a].probability * actions[b].cost > actions[b].probability * actions[a].cost;
  });
  return order;
}

double expected_cost(std::span<const RepairAction> actions, std::span<const std::size_t> order) {
  double still_there = 1.0;
  double cost = 0.0;
  for (const std::size_t action : order) {
    cost += still_there * actions[action].cost;
    still_there -= actions[action].probability;
  }
  return cost;
}

RepairPlan repair_plan(const FaultList& faults, const Diagnosis& diagnosis, const WorkTimes& times) {
  constexpr double worth_a_try = 0.05;
  std::vector<std::size_t> parts;
  std::vector<RepairAction> actions;
  for (const AnswerSet& answer : answers(faults, diagnosis)) {
    if (answer.outside_cause || answer.parts.size() != 1 || answer.probability < worth_a_try) continue;
    parts.push_back(answer.parts.front());
    actions.push_back({answer.probability, faults.appliance().parts[parts.back()].minutes_to_replace + times.test_run});
  }
  const std::vector<std::size_t> order = repair_order(actions);
  RepairPlan plan{{}, expected_cost(actions, order)};
  for (const std::size_t action : order) plan.parts.push_back(parts[action]);
  return plan;
}

}  // namespace ohmwright::locate
