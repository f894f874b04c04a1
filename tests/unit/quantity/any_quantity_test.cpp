#include <string>
#include <type_traits>

#include <gtest/gtest.h>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {
namespace {

TEST(AnyQuantity, CarriesAStaticQuantityThereAndBack) {
  const AnyQuantity value = Resistance::from_value(11e3);
  EXPECT_EQ(value.dimension(), Dimension::resistance);
  EXPECT_EQ(value.value_in_si(), 11e3);
  EXPECT_EQ(value.as<Resistance>(), Resistance::from_value(11e3));
}

TEST(AnyQuantity, CarriesATemperatureInKelvin) {
  const AnyQuantity value = Temperature::from_celsius(23.0);
  EXPECT_EQ(value.dimension(), Dimension::temperature);
  EXPECT_EQ(value.value_in_si(), 296.15);
  EXPECT_EQ(value.as<Temperature>(), Temperature::from_celsius(23.0));
}

TEST(AnyQuantity, PointAndDifferenceAreNotEqual) {
  EXPECT_NE(AnyQuantity(Temperature::from_kelvin(1.0)), AnyQuantity(TemperatureDifference::from_value(1.0)));
}

TEST(AnyQuantity, NothingWithoutAUnitConverts) {
  static_assert(!std::is_constructible_v<AnyQuantity, double>);
  static_assert(!std::is_constructible_v<AnyQuantity, int>);
  static_assert(!std::is_constructible_v<AnyQuantity, const char*>);
  static_assert(std::is_convertible_v<Ratio, AnyQuantity>);
  static_assert(std::is_trivially_copyable_v<AnyQuantity>);
}

}  // namespace
}  // namespace ohmwright
