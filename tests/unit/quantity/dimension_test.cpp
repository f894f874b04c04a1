#include <set>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright {
namespace {

TEST(Dimension, EveryNameLeadsBackToItsDimension) {
  std::set<std::string_view> names;
  for (std::size_t place = 0; place < dimension_count; ++place) {
    const auto dimension = static_cast<Dimension>(place);
    EXPECT_EQ(dimension_named(name_of(dimension)), dimension);
    names.insert(name_of(dimension));
  }
  EXPECT_EQ(names.size(), dimension_count);
}

TEST(Dimension, UnknownNameIsNoDimension) {
  EXPECT_EQ(dimension_named(""), std::nullopt);
  EXPECT_EQ(dimension_named("Resistance"), std::nullopt);
  EXPECT_EQ(dimension_named("temperature difference"), std::nullopt);
}

TEST(Dimension, SiUnitIsTheOneOfMachineOutput) {
  EXPECT_EQ(si_unit_of(Dimension::resistance), "ohm");
  EXPECT_EQ(si_unit_of(Dimension::temperature), "K");
  EXPECT_EQ(si_unit_of(Dimension::rotational_speed), "rad/s");
  EXPECT_EQ(si_unit_of(Dimension::mass), "kg");
  EXPECT_EQ(si_unit_of(Dimension::ratio), "1");
}

TEST(Dimension, ExpectationNamesTheDimensionAndAnExample) {
  EXPECT_EQ(expectation_of(Dimension::resistance), R"(a resistance, such as "11.0 kohm")");
  EXPECT_EQ(expectation_of(Dimension::temperature_difference), R"(a temperature difference, such as "0.5 K")");
}

TEST(Dimension, StaticTypesKnowTheirDimension) {
  static_assert(dimension_of<Resistance> == Dimension::resistance);
  static_assert(dimension_of<Voltage> == Dimension::voltage);
  static_assert(dimension_of<Current> == Dimension::current);
  static_assert(dimension_of<Power> == Dimension::power);
  static_assert(dimension_of<Energy> == Dimension::energy);
  static_assert(dimension_of<Frequency> == Dimension::frequency);
  static_assert(dimension_of<Capacitance> == Dimension::capacitance);
  static_assert(dimension_of<Inductance> == Dimension::inductance);
  static_assert(dimension_of<Duration> == Dimension::duration);
  static_assert(dimension_of<Temperature> == Dimension::temperature);
  static_assert(dimension_of<TemperatureDifference> == Dimension::temperature_difference);
  static_assert(dimension_of<RotationalSpeed> == Dimension::rotational_speed);
  static_assert(dimension_of<Mass> == Dimension::mass);
  static_assert(dimension_of<Length> == Dimension::length);
  static_assert(dimension_of<Ratio> == Dimension::ratio);
  static_assert(!StaticQuantity<double>);
  static_assert(!StaticQuantity<std::string>);
}

}  // namespace
}  // namespace ohmwright
