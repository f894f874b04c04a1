#include <limits>

#include "support/fixture_kind.hpp"

namespace {
/// Passes its part with a probability that is not a number.
class NotANumberPart : public ohmwright::Part {
 public:
  void judge(const ohmwright::Evidence& /*evidence*/, const ohmwright::JudgeSettings& /*settings*/,
             ohmwright::Findings& findings) const override {
    ohmwright::Finding& finding = findings.add(0, ohmwright::Outcome::undecided, 0);
    finding.meaning = ohmwright::ProbabilityMeaning::within_limits;
    finding.probability = std::numeric_limits<double>::quiet_NaN();
  }
};

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<NotANumberPart>(fixture::complete_descriptor("misuses-findings"));
}
}  // namespace

OHMWRIGHT_PLUGIN("misuses-findings", create, 1)
