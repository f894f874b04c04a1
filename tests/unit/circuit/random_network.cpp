#include "random_network.hpp"

#include <cmath>
#include <numbers>

namespace ohmwright::circuit::testing_support {

double RandomNetworks::between(double least, double most) {
  const double unit = static_cast<double>(generator_() >> 11) * 0x1p-53;
  return least * std::exp(unit * std::log(most / least));
}

NodePair RandomNetworks::pair(const Network& network) {
  const std::size_t plus = below(network.node_count());
  const std::size_t minus = (plus + 1 + below(network.node_count() - 1)) % network.node_count();
  return {static_cast<NodeIndex>(plus), static_cast<NodeIndex>(minus)};
}

BranchModel RandomNetworks::passive(const Ingredients& ingredients) {
  if (ingredients.reactances && below(3) == 0) {
    if (below(2) == 0) return {BranchType::capacitance, between(ingredients.least_farad, 1e-4), 0.0};
    return {BranchType::inductance, between(1e-3, 10.0), 0.0};
  }
  return {BranchType::resistance, between(ingredients.least_ohm, ingredients.most_ohm), 0.0};
}

void RandomNetworks::add(Network& network, NodeIndex from, NodeIndex to, const Ingredients& ingredients) {
  BranchModel model = passive(ingredients);
  const std::size_t draw = below(12);
  if (draw == 0) model = open();
  const bool ideal = (ingredients.conductors && draw == 1) || (ingredients.sources && draw == 2);
  if (ideal && ideal_[from] != ideal_[to]) {
    const NodeIndex goes = ideal_[to];
    for (NodeIndex& label : ideal_)
      if (label == goes) label = ideal_[from];
    model = draw == 1 ? closed()
                      : BranchModel{BranchType::voltage_source, between(1.0, 240.0),
                                    below(3) == 0 && ingredients.phases ? 2.0 * std::numbers::pi / 3.0 : 0.0};
  }
  network.add_branch(from, to, model);
}

Network RandomNetworks::network(Shape shape, const Ingredients& ingredients) {
  Network network;
  const std::size_t nodes = shape == Shape::bridge ? 4 : 4 + below(9);
  ideal_.clear();
  for (std::size_t node = 0; node < nodes; ++node) ideal_.push_back(network.add_node());
  const auto connect = [&](std::size_t from, std::size_t to) {
    add(network, static_cast<NodeIndex>(from), static_cast<NodeIndex>(to), ingredients);
  };
  if (ingredients.sources) {
    network.add_branch(0, 1, {BranchType::voltage_source, 120.0, 0.0});
    ideal_[1] = 0;
  }
  if (shape == Shape::bridge) {
    for (std::size_t from = 0; from < nodes; ++from)
      for (std::size_t to = from + 1; to < nodes; ++to) connect(from, to);
  } else if (shape == Shape::ladder) {
    for (std::size_t node = 1; node < nodes; ++node) {
      connect(node - 1, node);
      if (node > 1) connect(node, 0);
    }
  } else {
    const std::size_t parts = shape == Shape::two_parts ? 2 : 1;
    for (std::size_t node = parts; node < nodes; ++node) connect(node % parts + parts * below(node / parts), node);
    for (std::size_t more = below(nodes); more > 0; --more) {
      const std::size_t from = below(nodes);
      const std::size_t to = from % parts + parts * below((nodes - from % parts + parts - 1) / parts);
      connect(from, to);
    }
  }
  return network;
}

std::vector<Change> RandomNetworks::changes(const Network& network, const Ingredients& ingredients, std::size_t most) {
  std::vector<Change> result;
  for (std::size_t count = 1 + below(most); count > 0; --count) {
    Change change{static_cast<BranchIndex>(below(network.branches().size())), open()};
    const std::size_t draw = below(4);
    if (draw == 1) change.model = closed();
    if (draw > 1) change.model = passive(ingredients);
    result.push_back(change);
  }
  return result;
}

}  // namespace ohmwright::circuit::testing_support
