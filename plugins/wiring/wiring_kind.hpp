#pragma once

#include <ohmwright/component/kind.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::wiring {

/// The kind "wiring": a lead with what is crimped to its ends, a connector, a splice.
class WiringKind final : public Kind {
 public:
  WiringKind() : descriptor_(make_descriptor()) {}

  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override;
  Fitting fit(const FitRequest& request) const override;
  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override;

 private:
  Descriptor descriptor_;
};

}  // namespace ohmwright::wiring
