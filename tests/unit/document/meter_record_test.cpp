#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/document/meter_record.hpp>
#include <ohmwright/quantity/error.hpp>

#include "temporary_folder.hpp"
#include "test_kind.hpp"

namespace ohmwright {
namespace {

using testing::basic_meter;
using testing::refusal_of;

std::vector<Meter> many_meters() {
  Meter full = basic_meter("0.3 ohm +- 0.05 ohm");
  full.title = "Old \"one\"\x1b[31m\n";
  full.functions[0].one_means_over_range = true;
  full.functions[0].ranges[1].percent_of_reading = 0.1 + 0.2;
  full.functions.push_back({Dimension::temperature,
                            {{AnyQuantity(Dimension::temperature, 673.15), 1.0 / 3.0, 2.0,
                              AnyQuantity(Dimension::temperature_difference, 0.1)}},
                            false});
  full.functions.push_back(full.functions[0]);
  full.functions.back().tests_insulation = true;
  Meter bare = basic_meter("0 ohm");
  bare.functions.clear();
  bare.low_impedance = true;
  return {full, bare};
}

TEST(MeterRecord, RoundTripGivesEqualMeters) {
  const std::vector<Meter> meters = many_meters();
  const std::vector<Meter> back = meters_from_record(meters_record(meters));
  ASSERT_EQ(back.size(), meters.size());
  for (std::size_t i = 0; i < meters.size(); ++i) EXPECT_TRUE(equal(meters[i], back[i])) << "meter " << i;
  EXPECT_EQ(meters_record(back).find('\n'), std::string::npos) << "a record is one line";
}

TEST(MeterRecord, EqualityNoticesEveryField) {
  const Meter first = many_meters()[0];
  const auto changed = [&first](auto change) {
    Meter other = first;
    change(other);
    return !equal(first, other);
  };
  EXPECT_FALSE(changed([](Meter&) {}));
  EXPECT_TRUE(changed([](Meter& m) { m.name = "x"; }));
  EXPECT_TRUE(changed([](Meter& m) { m.title = "x"; }));
  EXPECT_TRUE(changed([](Meter& m) { m.source = "x"; }));
  EXPECT_TRUE(changed([](Meter& m) { m.low_impedance = true; }));
  EXPECT_TRUE(changed([](Meter& m) { m.sets_range_itself = false; }));
  EXPECT_TRUE(changed([](Meter& m) { m.lead_resistance.half_width.reset(); }));
  EXPECT_TRUE(changed([](Meter& m) { m.lead_resistance.value = AnyQuantity(Dimension::resistance, 0.4); }));
  EXPECT_TRUE(changed([](Meter& m) { m.functions.pop_back(); }));
  EXPECT_TRUE(changed([](Meter& m) { m.functions[0].one_means_over_range = false; }));
  EXPECT_TRUE(changed([](Meter& m) { m.functions[0].tests_insulation = true; }));
  EXPECT_TRUE(changed([](Meter& m) { m.functions[0].ranges.pop_back(); }));
  EXPECT_TRUE(changed([](Meter& m) { m.functions[0].ranges[0].counts = 4.0; }));
  EXPECT_TRUE(changed([](Meter& m) { m.functions[0].ranges[0].percent_of_reading = 1.0; }));
  EXPECT_TRUE(changed(
      [](Meter& m) { m.functions[1].ranges[0].resolution = AnyQuantity(Dimension::temperature_difference, 1.0); }));
  EXPECT_TRUE(
      changed([](Meter& m) { m.functions[1].ranges[0].full_scale = AnyQuantity(Dimension::temperature, 600.0); }));
}

TEST(MeterRecord, SaysWhatIsWrong) {
  EXPECT_EQ(refusal_of([] { meters_from_record(R"({"meters":[{"name":"x"}]})"); }),
            "meters record:1: /meters/0: the field \"title\" is missing");
  EXPECT_EQ(refusal_of([] { meters_from_record("{}"); }), "meters record:1: the field \"meters\" is missing");
}

TEST(SettingsRecord, RoundTripKeepsEveryBit) {
  for (const double confidence : {0.95, 0.1 + 0.2, 1.0 / 3.0, std::numeric_limits<double>::infinity()})
    EXPECT_EQ(settings_from_record(settings_record({confidence})).confidence, confidence);
}

}  // namespace
}  // namespace ohmwright
