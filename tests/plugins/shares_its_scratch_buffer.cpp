#include <array>

#include "support/fixture_kind.hpp"

// Right in every verdict as long as one thread judges alone: it takes the mean of what it wrote into a buffer that all
// threads share. Where another thread wrote between, the mean is of both parts.

namespace {

class Sharing : public ohmwright::Part {
 public:
  void judge(const ohmwright::Evidence& evidence, const ohmwright::JudgeSettings& /*settings*/,
             ohmwright::Findings& findings) const override {
    static std::array<volatile double, 64> scratch;
    bool any = false;
    bool differs = false;
    for (const ohmwright::PreparedReading& reading : evidence.readings()) {
      any = true;
      for (volatile double& one : scratch) one = reading.value.value();
      double mean = 0.0;
      for (const volatile double& one : scratch) mean += one / static_cast<double>(scratch.size());
      differs = differs || mean < 0.999 * reading.value.value() || mean > 1.001 * reading.value.value();
    }
    findings.add(0, any && differs ? ohmwright::Outcome::silent : ohmwright::Outcome::undecided, 0);
  }
};

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<Sharing>(fixture::complete_descriptor("shares-its-scratch-buffer"));
}

}  // namespace

OHMWRIGHT_PLUGIN("shares-its-scratch-buffer", create, 1)
