#pragma once

#include <ohmwright/component/kind.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::heater {

/// The kind "heater": resistance heaters of wire, in glass, metal sheath or foil, of one element or two in parallel.
class HeaterKind final : public Kind {
 public:
  HeaterKind() : descriptor_(make_descriptor()) {}

  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override;
  Fitting fit(const FitRequest& request) const override;
  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override;

 private:
  Descriptor descriptor_;
};

}  // namespace ohmwright::heater
