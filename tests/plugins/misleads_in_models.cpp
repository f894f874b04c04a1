#include <cmath>
#include <limits>

#include "support/fixture_kind.hpp"

namespace {

/// Right while it judges; what it says of itself otherwise cannot be used.
class MisleadingPart final : public fixture::FixturePart {
 public:
  std::optional<ohmwright::Expectation> expect(std::uint16_t /*measurand*/,
                                               const ohmwright::Situation& /*situation*/) const override {
    return ohmwright::Expectation{ohmwright::AnyQuantity(ohmwright::Dimension::voltage, 1.0), {}};
  }
  ohmwright::ModelAnswer electrical_model(std::uint16_t /*fault_mode*/, const ohmwright::Situation& /*situation*/,
                                          std::vector<ohmwright::Element>& elements) const override {
    elements.push_back(ohmwright::resistance_between(0, 1, 10.0, 12.0));
    elements.back().value_in_si = std::numeric_limits<double>::quiet_NaN();
    return ohmwright::ModelAnswer::stated;
  }
};

class MisleadingKind final : public fixture::FixtureKind<MisleadingPart> {
 public:
  using FixtureKind::FixtureKind;
  ohmwright::Fitting fit(const ohmwright::FitRequest& /*request*/) const override {
    ohmwright::Fitting fitting;
    fitting.remarks.push_back({7, false, {"odd", "This row is odd"}, {}});
    return fitting;
  }
  std::vector<ohmwright::EquivalenceFinding> compare(const ohmwright::Part& /*original*/,
                                                     const ohmwright::Part& /*candidate*/,
                                                     const ohmwright::ComparisonContext& /*context*/) const override {
    return {{static_cast<ohmwright::Outcome>(99), {"alike", "They are alike"}, {}}};
  }
};

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new MisleadingKind(fixture::complete_descriptor("misleads-in-models"));
}

}  // namespace

OHMWRIGHT_PLUGIN("misleads-in-models", create, 1)
