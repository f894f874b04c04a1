#include <stdexcept>

#include "support/fixture_kind.hpp"

namespace {
/// Says that the part is good, and then throws: what it said must not count.
class ThrowingPart : public ohmwright::Part {
 public:
  void judge(const ohmwright::Evidence& /*evidence*/, const ohmwright::JudgeSettings& /*settings*/,
             ohmwright::Findings& findings) const override {
    findings.add(0, ohmwright::Outcome::within_limits, 0);
    throw std::domain_error("the curve has no value there");
  }
};

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<ThrowingPart>(fixture::complete_descriptor("throws-in-judge"));
}
}  // namespace

OHMWRIGHT_PLUGIN("throws-in-judge", create, 1)
