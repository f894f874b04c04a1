// What an appliance's file gives, and what is refused in it, word for word.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

TEST(ApplianceReader, GivesWhatTheFileSays) {
  const Appliance appliance = appliance_of(fan_heater());
  ASSERT_EQ(appliance.parts.size(), 4U);
  const PlacedPart& heater = appliance.parts[2];
  EXPECT_EQ(heater.id, "heater");
  EXPECT_EQ(heater.ratings, "heater-2kw-230v");
  ASSERT_TRUE(heater.nodes[1]);
  EXPECT_EQ(*heater.nodes[1], appliance.supply.neutral);
  EXPECT_DOUBLE_EQ(appliance.supply.voltage.value.value_in_si(), 230.0);
  EXPECT_DOUBLE_EQ(appliance.covers[0].minutes, 4.0);
  ASSERT_EQ(appliance.test_points.size(), 4U);
  EXPECT_EQ(appliance.test_points[2].lifted, (std::vector<PartTerminal>{{0, 0}}));
  EXPECT_EQ(appliance.test_points[3].probe, Probe::amperes);
  EXPECT_NEAR(appliance.set_ups[0].temperatures[0].temperature.value.value_in_si(), 333.15, 1e-9);
  ASSERT_EQ(appliance.symptoms.size(), 1U);
  EXPECT_EQ(appliance.symptoms[0].title, "The air that it blows stays cold");
  EXPECT_EQ(appliance.consequences[0].outside_cause, 0U);
}

TEST(ApplianceReader, WeighsSingleFaultsOfAPart) {
  const Appliance plain = appliance_of(fan_heater());
  EXPECT_DOUBLE_EQ(plain.parts[3].weight_of(3), 1.0);
  const Appliance changed = appliance_of(fan_heater_with(
      R"("shaded-pole-230v",)", R"("shaded-pole-230v", "weight": 2, "fault_weights": {"blocked-by-ice": 0},)"));
  const PlacedPart& fan = changed.parts[3];
  const std::uint16_t ice = index_of(fan.kind->descriptor().fault_modes, "blocked-by-ice");
  EXPECT_DOUBLE_EQ(fan.weight_of(ice), 0.0);
  EXPECT_DOUBLE_EQ(fan.weight_of(0), 2.0);
  EXPECT_THAT(refusal_of(fan_heater_with(R"("shaded-pole-230v",)",
                                         R"("shaded-pole-230v", "fault_weights": {"blocked-by-icy": 0},)")),
              HasSubstr("/parts/3/fault_weights/blocked-by-icy: a fan-motor has no fault \"blocked-by-icy\"; did you "
                        "mean \"blocked-by-ice\"?"));
}

TEST(ApplianceReader, RefusesWordsThatNobodyKnows) {
  EXPECT_THAT(refusal_of(fan_heater_with(R"("cautions": ["hot-surface"]}])", R"("cautions": ["hot-surfaces"]}])")),
              HasSubstr("/covers/0/cautions/0: there is no caution \"hot-surfaces\"; did you mean \"hot-surface\"?"));
  EXPECT_THAT(refusal_of(fan_heater_with(R"("no-heat": 0.3)", R"("no-heatt": 0.3)")),
              HasSubstr("/outside_causes/0/symptoms/no-heatt: there is no symptom \"no-heatt\"; did you mean "
                        "\"no-heat\"?"));
  EXPECT_THAT(refusal_of(fan_heater_with(R"("evidence": {)", R"("evidence": {"no-heat": "It stays cold", )")),
              HasSubstr("/evidence/no-heat: the program has the symptom \"no-heat\" already; leave it out, or give "
                        "yours another name"));
}

TEST(ApplianceReader, HasNoPartInGasOrTheHighVoltageOfAMicrowaveOven) {
  EXPECT_THAT(
      refusal_of(fan_heater_with(R"("title": "Limit",)", R"("title": "Gas valve",)")),
      HasSubstr("/parts/0/title: \"Gas valve\": gas is outside of what this program does: it stops at valve, pipe "
                "and burner, which are work for licensed hands"));
  EXPECT_THAT(refusal_of(fan_heater_with(R"("title": "Limit, a lead off")", R"("title": "High-voltage diode")")),
              HasSubstr("/title: \"High-voltage diode\": the high-voltage side of a microwave oven can kill"));
}

TEST(ApplianceReader, RefusesSymptomsThatNobodyCanType) {
  EXPECT_THAT(refusal_of(fan_heater_with(R"("evidence": {)", R"("evidence": {"Cold Air": "It stays cold", )")),
              HasSubstr("/evidence/Cold Air: a symptom's name has small letters, digits and - only, got \"Cold Air\""));
}

TEST(ApplianceReader, TellsEveryMistakeAtOnce) {
  std::string text = fan_heater_with(R"("ratings": "high-limit-95")", R"("ratings": "high-limit-59")");
  const auto change = [&text](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  change(R"("kind": "fan-motor")", R"("kind": "fan-moter")");
  change(R"("frame": "PE")", R"("fram": "PE")");
  change(R"("zone": "box",
     "connections": {"lead-1": "A")",
         R"("zone": "bax",
     "connections": {"lead-1": "A")");
  EXPECT_THAT(refusal_of(text),
              AllOf(HasSubstr("file:8: /parts/0/ratings: there is no ratings of the kind high-limit-thermostat "
                              "\"high-limit-59\""),
                    HasSubstr("file:10: /parts/1/zone: there is no zone \"bax\"; did you mean \"box\"?"),
                    HasSubstr("file:13: /parts/2/connections/fram: a heater has no terminal \"fram\"; did you mean "
                              "\"frame\"?"),
                    HasSubstr("file:14: /parts/3/kind: no kind is called \"fan-moter\"; did you mean \"fan-motor\"?")));
}

TEST(ApplianceReader, ASetUpMayLeaveAZoneAsWarmAsAnother) {
  const auto with_row = [](const std::string& row) {
    std::string text = fan_heater_with(R"("temperature": "21 degC ± 3 K"}])",
                                       R"("temperature": "21 degC ± 3 K"},
    {"id": "room", "title": "room", "temperature": "18 degC ± 4 K"}])");
    const std::string old = R"("60 degC ± 5 K")";
    return text.replace(text.find(old), old.size(), row);
  };
  const Appliance appliance = appliance_of(with_row(R"({"as_warm_as": "room", "within": "3 K"})"));
  const SetTemperature& row = appliance.set_ups[0].temperatures[0];
  EXPECT_EQ(row.as_warm_as, 1U);
  EXPECT_NEAR(row.temperature.value.value_in_si(), 291.15, 1e-9);
  EXPECT_DOUBLE_EQ(row.temperature.half_width.value(), 5.0) << "of both doubts the root of the sum of squares";
  EXPECT_THAT(refusal_of(with_row(R"({"as_warm_as": "roam"})")),
              HasSubstr("there is no zone \"roam\"; did you mean \"room\"?"));
  EXPECT_THAT(refusal_of(with_row(R"({"as_warm_as": "box"})")), HasSubstr("is the zone itself"));
  EXPECT_THAT(refusal_of(with_row(R"({"as_warm_as": "room", "within": "-3 K"})")), HasSubstr("0 K or more"));
}

}  // namespace
}  // namespace ohmwright::testing
