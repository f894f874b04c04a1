// What a part may be at a temperature that is in doubt. Figures by hand.

#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/loose_contact.hpp>
#include <ohmwright/locate/part_model.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

namespace ohmwright::locate {
namespace {

using namespace testing;

constexpr double zone_kelvin = 255.15;
constexpr double half_width_kelvin = 2.0;

/// 10 kohm ± `tolerance` at the zone's temperature; its logarithm moves by `effect` over the half-width of that.
class WarmResistor final : public Part {
 public:
  WarmResistor(double tolerance, double effect) : tolerance_(tolerance), effect_(effect) {}
  void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& /*findings*/) const override {}
  ModelAnswer electrical_model(std::uint16_t /*fault_mode*/, const Situation& situation,
                               std::vector<Element>& elements) const override {
    const double kelvin = situation.condition(0).value_or(zone_kelvin);
    const double ohm = 10e3 * std::exp(-effect_ * (kelvin - zone_kelvin) / half_width_kelvin);
    elements.push_back(resistance_between(0, 1, ohm * (1.0 - tolerance_), ohm * (1.0 + tolerance_)));
    return ModelAnswer::stated;
  }

 private:
  double tolerance_;
  double effect_;
};

std::vector<ElementChoice> choices(double tolerance, double effect) {
  Appliance appliance;
  appliance.supply.voltage = parse_stated_value("120 V", Dimension::voltage);
  appliance.zones = {{"coil", "coil", parse_stated_value("-18 degC ± 2 K", Dimension::temperature)}};
  PlacedPart part;
  part.id = part.title = "sensor";
  part.kind = &contact_kind();  // the bench's kind that knows a temperature
  part.part = std::make_shared<WarmResistor>(tolerance, effect);
  part.nodes.resize(2);
  part.zone = 0;
  appliance.parts.push_back(std::move(part));
  const std::vector<ElementSpread> model =
      part_model(appliance, 0, not_found, site_as_found(appliance), Excitation::ohmmeter);
  EXPECT_EQ(model.size(), 1U);
  return model.front().choices;
}

// Variances of two independent errors add up (JCGM 100:2008, 5.1.2): 6 % and 8 % are 10 %, of a rectangle over √3
// (4.3.7), and not 14 %.
TEST(PartModel, HalfWidthsOfTwoErrorsAddUpBySquares) {
  const std::vector<ElementChoice> one = choices(0.06, 0.08);
  ASSERT_EQ(one.size(), 1U);
  EXPECT_NEAR(one.front().value_in_si, 10e3, 1e-9);
  EXPECT_NEAR(one.front().relative_uncertainty, 0.10 / std::sqrt(3.0), 1e-9);
}

// 21 % and 28 % are 35 %: up to there one value with its spread, past it several values to choose from.
TEST(PartModel, PastThirtyFivePercentItIsOneOfSeveralValues) {
  EXPECT_EQ(choices(0.21, 0.279).size(), 1U);
  const std::vector<ElementChoice> several = choices(0.21, 0.281);
  ASSERT_GT(several.size(), 1U);
  double sum = 0.0;
  for (const ElementChoice& choice : several) sum += choice.weight;
  EXPECT_NEAR(sum, 1.0, 1e-12);
}

// 8 % and 6 % are 10 %, of whose square 36 % are the temperature's.
TEST(PartModel, EachOfTheTwoErrorsHasItsShare) {
  EXPECT_NEAR(choices(0.08, 0.06).front().share_of_temperature, 0.6, 1e-9);
  EXPECT_NEAR(choices(0.08, 0.0).front().share_of_temperature, 0.0, 1e-9);
  EXPECT_NEAR(choices(0.0, 0.06).front().share_of_temperature, 1.0, 1e-9);
}

// Half open; three tenths of that, in twice two decades, are 7.5 % each. Their middles are 10 ohm and 1 kohm.
TEST(PartModel, WhatComesAndGoesMayShowOhmsWhileItIsBad) {
  ElementSpread contact{0, 1, true, false, false, {}, {}};
  contact.choices = {{0.5, ElementType::resistance, 30.0, 0.02}, {0.5, ElementType::open}};
  add_ohms_of_loose_contact(contact);
  ASSERT_EQ(contact.choices.size(), 4U);
  EXPECT_NEAR(contact.choices[0].weight, 0.5, 1e-12);
  EXPECT_NEAR(contact.choices[1].weight, 0.35, 1e-12);
  EXPECT_NEAR(contact.choices[2].weight, 0.075, 1e-12);
  // 1 to 100 ohm and 100 ohm to 10 kohm beside the good 30: each the middle of its ends on a logarithmic scale.
  EXPECT_NEAR(contact.choices[2].value_in_si, std::sqrt(31.0 * 130.0), 1e-9);
  EXPECT_NEAR(contact.choices[3].value_in_si, std::sqrt(130.0 * 10030.0), 1e-9);
}

TEST(PartModel, WhatNeverOpensHasNoLooseContact) {
  ElementSpread closed{0, 1, true, false, false, {{1.0, ElementType::resistance, 0.1, 0.02}}, {}};
  add_ohms_of_loose_contact(closed);
  EXPECT_EQ(closed.choices.size(), 1U);
}

}  // namespace
}  // namespace ohmwright::locate
