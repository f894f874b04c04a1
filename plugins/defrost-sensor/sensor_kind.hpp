#pragma once

#include <ohmwright/component/kind.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_sensor {

/// The kind "defrost-sensor": thermistors and platinum sensors on the coil of a cooling appliance.
class SensorKind final : public Kind {
 public:
  SensorKind() : descriptor_(make_descriptor()) {}

  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override;
  Fitting fit(const FitRequest& request) const override;
  /// Both parts must be of this kind.
  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override;

 private:
  Descriptor descriptor_;
};

}  // namespace ohmwright::defrost_sensor
