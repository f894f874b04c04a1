#include <algorithm>
#include <span>

#include <ohmwright/conformance/kit/tried_situations.hpp>

namespace ohmwright {

namespace {

/// Where most ratings are stated, and where a model that knows no temperature is right.
constexpr double room_kelvin = 293.15;

}  // namespace

std::vector<Situation> tried_situations(const Descriptor& descriptor) {
  std::vector<Situation> situations(1);
  for (std::uint16_t state = 0; state < descriptor.states.size(); ++state)
    for (std::uint16_t value = 0; value < descriptor.states[state].values.size(); ++value) {
      const StateValue set{state, value};
      situations.emplace_back(std::span<const ConditionValue>(), std::span(&set, 1));
    }
  for (std::uint16_t condition = 0; condition < descriptor.conditions.size(); ++condition) {
    if (descriptor.conditions[condition].dimension != Dimension::temperature) continue;
    const ConditionValue value{condition, room_kelvin};  // without one a rule may say nothing
    situations.emplace_back(std::span(&value, 1));
  }
  for (const ChartAxis& axis : descriptor.charts) {
    const auto condition = std::find_if(descriptor.conditions.begin(), descriptor.conditions.end(),
                                        [&](const ConditionDescriptor& one) { return one.id == axis.condition; });
    if (condition == descriptor.conditions.end()) continue;
    const auto index = static_cast<std::uint16_t>(condition - descriptor.conditions.begin());
    for (const double share : {0.0, 0.5, 1.0}) {
      const ConditionValue value{index,
                                 axis.from.value_in_si() + share * (axis.to.value_in_si() - axis.from.value_in_si())};
      situations.emplace_back(std::span(&value, 1));
    }
  }
  return situations;
}

}  // namespace ohmwright
