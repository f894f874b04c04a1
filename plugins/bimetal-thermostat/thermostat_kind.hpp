#pragma once

#include <ohmwright/component/kind.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::bimetal_thermostat {

/// The kind "bimetal-thermostat": defrost thermostats, which open as they warm.
class ThermostatKind final : public Kind {
 public:
  ThermostatKind() : descriptor_(make_descriptor()) {}

  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override;
  Fitting fit(const FitRequest& request) const override;
  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override;

 private:
  Descriptor descriptor_;
};

}  // namespace ohmwright::bimetal_thermostat
