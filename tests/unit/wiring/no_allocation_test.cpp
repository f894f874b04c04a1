#include <gtest/gtest.h>

#include "allocations.hpp"
#include "wiring_fixture.hpp"
#include "wiring_part.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::wiring {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<WiringRatings>& ratings, const std::vector<Typed>& typed) {
  const WiringPart part(ratings);
  const Evidence evidence = evidence_of(typed);
  return testing::allocations_of_judge(part, evidence);
}

TEST(Judge, AllocatesNothing) {
  EXPECT_EQ(allocations_of_judge(lead(), {{.value = "0.3 ohm", .at = "20 degC +- 2 K"}}), 0);
  EXPECT_EQ(allocations_of_judge(splice(), {across("1.875 V")}), 0);
  EXPECT_EQ(allocations_of_judge(drum(), {{.value = "2.3 ohm", .length = "50 m"}, across("7.5 V")}), 0);
  EXPECT_EQ(allocations_of_judge(
                lead(), {clipped("0.3 ohm"), clipped("OL"), across("0.1 V"), tester("0.2 Mohm", Moisture::wet),
                         tester("20 Mohm"), in_circuit_ohms("5 ohm"), in_circuit_ohms("5 ohm", "resistance_swapped")}),
            0);
  EXPECT_EQ(allocations_of_judge({}, {{.value = "OL"}, tester("20 Mohm")}), 0);
}

}  // namespace
}  // namespace ohmwright::wiring
