#include <ohmwright/component/kind.hpp>

namespace ohmwright {

Part::~Part() = default;

std::optional<Expectation> Part::expect(std::uint16_t /*measurand*/, const Situation& /*situation*/) const {
  return std::nullopt;
}

ModelAnswer Part::electrical_model(std::uint16_t /*fault_mode*/, const Situation& /*situation*/,
                                   std::vector<Element>& /*elements*/) const {
  return ModelAnswer::unknown;
}

Kind::~Kind() = default;

Fitting Kind::fit(const FitRequest& /*request*/) const { return {}; }

std::vector<EquivalenceFinding> Kind::compare(const Part& /*original*/, const Part& /*candidate*/,
                                              const ComparisonContext& /*context*/) const {
  return {};
}

}  // namespace ohmwright
