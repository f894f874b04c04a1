#pragma once

#include <ohmwright/report/chart.hpp>

#include "test_kind.hpp"

namespace ohmwright::testing {

/// Reads 1 ohm a kelvin, ± 10 %; knows nothing below 250 K, and not well above 299 K.
class StraightPart final : public Part {
 public:
  void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& /*findings*/) const override {}
  std::optional<Expectation> expect(std::uint16_t /*measurand*/, const Situation& situation) const override {
    const double kelvin = situation.condition(0).value();
    if (kelvin < 250.0) return std::nullopt;
    const auto ohms = [](double value) { return AnyQuantity(Dimension::resistance, value); };
    return Expectation{ohms(kelvin), {ohms(0.9 * kelvin), ohms(1.1 * kelvin)}, kelvin > 299.0 ? 20.0 : 0.0};
  }
};

/// A contact that opens at 283 K when it warms, and closes at 263 K when it cools.
class SwitchingPart final : public Part {
 public:
  void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& /*findings*/) const override {}
  std::optional<Expectation> expect(std::uint16_t /*measurand*/, const Situation& situation) const override {
    const double opens = situation.states[0].value == 0 ? 283.0 : 263.0;
    Expectation expected{AnyQuantity(Dimension::resistance, 0.0), {}};
    expected.share_closed = situation.condition(0).value() < opens ? 1.0 : 0.0;
    return expected;
  }
};

inline const Descriptor& charted_descriptor() {
  static const Descriptor descriptor = [] {
    Descriptor d = test_descriptor();
    const AnyQuantity cold(Dimension::temperature, 240.0);
    const AnyQuantity warm(Dimension::temperature, 300.0);
    d.states = {{"history", "history", {{"warming", "it warmed"}, {"cooling", "it cooled"}}}};
    d.charts = {{"resistance", "part_temperature", cold, warm, false},
                {"resistance", "part_temperature", cold, warm, false, "history"}};
    return d;
  }();
  return descriptor;
}

inline Chart straight_chart(std::size_t points = 7) {
  return make_chart(StraightPart(), charted_descriptor(),
                    {.axis = 0, .from = 240.0, .to = 300.0, .points = points, .conditions = {}});
}

inline Chart switching_chart(std::size_t points = 7) {
  return make_chart(SwitchingPart(), charted_descriptor(),
                    {.axis = 1, .from = 240.0, .to = 300.0, .points = points, .conditions = {}});
}

}  // namespace ohmwright::testing
