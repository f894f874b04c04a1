#include <gtest/gtest.h>

#include "allocations.hpp"
#include "control_fixture.hpp"
#include "control_part.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<ControlRatings>& ratings, const std::vector<Typed>& typed) {
  const ControlPart part(ratings);
  const Evidence evidence = evidence_of(typed);
  return testing::allocations_of_judge(part, evidence);
}

TEST(Judge, AllocatesNothing) {
  const Typed winding{.measurand = "motor", .value = "8 kohm", .at = "22 degC +- 2 K"};
  const Typed watched{.measurand = "advance", .value = "25 min", .position = "defrost", .hertz = "50 Hz"};
  const Typed clock{.measurand = "interval_by_clock", .value = "30 h", .share = "50 % +- 10 %"};
  EXPECT_EQ(allocations_of_judge(timer(), {winding, watched, contact("run_contact", "0.3 ohm", "run"),
                                           contact("defrost_contact", "OL", "run", Connection::in_circuit)}),
            0);
  EXPECT_EQ(allocations_of_judge(board(), {clock, output_at("defrost", "118 V", "3.7 A"), output_at("run", "60 V"),
                                           across("0.2 V", "3.7 A")}),
            0);
  EXPECT_EQ(allocations_of_judge(sensor_board(), {at_sensor("2.5 V", "10 kohm +- 0.1 kohm")}), 0);
  EXPECT_EQ(allocations_of_judge(timer(), {across("7.5 V", "3.7 A")}), 0);  // with what to check before buying
  EXPECT_EQ(allocations_of_judge({}, {winding, contact("run_contact", "0.3 ohm", "run")}), 0);
}

}  // namespace
}  // namespace ohmwright::defrost_control
