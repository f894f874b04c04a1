#pragma once

#include <ohmwright/component/kind.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_control {

/// The kind "defrost-control": what starts a defrost and feeds its heater, be it a timer with motor and cam or a board.
class ControlKind final : public Kind {
 public:
  ControlKind() : descriptor_(make_descriptor()) {}

  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override;
  Fitting fit(const FitRequest& request) const override;
  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override;

 private:
  Descriptor descriptor_;
};

}  // namespace ohmwright::defrost_control
