#include <gtest/gtest.h>

#include "allocations.hpp"
#include "heater_fixture.hpp"
#include "heater_part.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::heater {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<HeaterRatings>& ratings, const std::vector<Typed>& typed) {
  const HeaterPart part(ratings);
  const Evidence evidence = evidence_of(typed);
  return testing::allocations_of_judge(part, evidence);
}

TEST(Judge, AllocatesNothing) {
  EXPECT_EQ(allocations_of_judge(plain(), {{.value = "32.2 ohm", .at = "20 degC +- 2 K"}}), 0);
  EXPECT_EQ(allocations_of_judge(plain(), {{.value = "28.4 ohm"}}), 0);  // with advice
  EXPECT_EQ(allocations_of_judge(plain(), {{.value = "28.4 ohm"},
                                           clamp("3.7 A", "119 V +- 1 V"),
                                           across("118 V"),
                                           tester("0.2 Mohm", Moisture::wet),
                                           tester("20 Mohm"),
                                           in_circuit_ohms("20 ohm"),
                                           {.value = "OL"}}),
            0);
  EXPECT_EQ(allocations_of_judge(plain(), {{.value = "45 ohm"}, clamp("3.75 A", "120 V +- 1 V")}), 0);
  EXPECT_EQ(allocations_of_judge({}, {{.value = "OL"}, tester("20 Mohm")}), 0);
}

}  // namespace
}  // namespace ohmwright::heater
