#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsSupersetOf;
using ::testing::Not;

TEST(Advice, WithNothingReadAsksForAllThatMustPass) {
  EXPECT_THAT(advice_of(judge(timer(), {})), ElementsAre("read-contacts", "read-motor", "watch-it-move"));
  EXPECT_THAT(advice_of(judge(board(), {})), ElementsAre("measure-output", "watch-it-move"));
  EXPECT_THAT(advice_of(judge(sensor_board(), {})),
              ElementsAre("measure-output", "watch-it-move", "read-sensor-supply"));
}

TEST(Advice, WithoutRatingsAsksWhatItIs) {
  EXPECT_THAT(advice_of(judge(nullptr, {contact("defrost_contact", "OL", "defrost")})), Contains("say-ratings"));
}

TEST(Advice, NamesWhatIsMissing) {
  EXPECT_THAT(advice_of(judge(timer(), {contact("run_contact", "0.3 ohm", "run")})), Contains("read-other-position"));
  EXPECT_THAT(advice_of(judge(timer(), {contact("run_contact", "OL", "")})), Contains("say-position"));
  EXPECT_THAT(advice_of(judge(timer(), {contact("run_contact", "0.3 ohm", "run", Connection::unstated)})),
              Contains("lift-a-lead"));
  EXPECT_THAT(advice_of(judge(timer(), {contact("run_contact", "40 ohm", "run")})),
              IsSupersetOf({"clean-and-read-again", "measure-drop"}));
  EXPECT_THAT(advice_of(judge(timer(), {contact("run_contact", "0.3 ohm", "run", Connection::in_circuit)})),
              Contains("lift-a-lead"));
  EXPECT_THAT(advice_of(judge(board(), {output_at("defrost", "228 V", {}, "229 V")})),
              AllOf(Contains("output-under-load"), Not(Contains("measure-output"))));
  EXPECT_THAT(advice_of(judge(board(), {output_at("defrost", "228 V", "0.8 A", {})})), Contains("say-line-voltage"));
  EXPECT_THAT(advice_of(judge(timer(), {{.measurand = "motor", .value = "12 kohm"}})), Contains("motor-temperature"));
  EXPECT_THAT(advice_of(judge(timer(), {across("0.2 V", {})})), Contains("clamp-current"));
}

TEST(Advice, NamesHowLongToWatch) {
  const Findings findings =
      judge(timer(), {{.measurand = "advance", .value = "25 min", .position = "defrost", .stood = true}});
  for (const Advice& advice : findings.advice()) {
    if (advice.text != watch_longer) continue;
    EXPECT_EQ(std::get<AnyQuantity>(advice.arguments.at(0).value).value_in_si(), 1800.0);
  }
  EXPECT_THAT(advice_of(findings), Contains("watch-longer"));
}

TEST(Advice, AfterCondemningSaysWhatToCheckBeforeBuying) {
  EXPECT_THAT(advice_of(judge(timer(), {contact("defrost_contact", "0.3 ohm", "run")})),
              ElementsAre("find-what-welded", "before-buying-timer", "replacement-timer"));
  EXPECT_THAT(advice_of(judge(timer(), {across("7.5 V", "3.75 A")})),
              ElementsAre("before-buying-contact", "replacement-timer"));
  EXPECT_THAT(advice_of(judge(sensor_board(), {at_sensor("0.01 V")})),
              ElementsAre("before-buying-input", "replacement-board"));
  EXPECT_THAT(advice_of(judge(board(), {output_at("defrost", "0.3 V", {}, "229 V")})),
              ElementsAre("before-buying-board", "replacement-board"));
  EXPECT_THAT(
      advice_of(judge(timer(), {{.measurand = "advance", .value = "60 min", .position = "defrost", .stood = true}})),
      ElementsAre("find-why-it-stands", "replacement-timer"));
  EXPECT_THAT(advice_of(judge(timer(), {contact("run_contact", "OL", "run", Connection::in_circuit)})),
              ElementsAre("touch-the-probes", "lift-a-lead", "before-buying-timer", "replacement-timer"));
}

TEST(Advice, AsksForASecondLookAtTheDecimalPoint) {
  EXPECT_THAT(advice_of(judge(timer(), {{.measurand = "motor", .value = "80 kohm", .at = "25 degC"}})),
              Contains("misread-decimal"));
}

}  // namespace
}  // namespace ohmwright::defrost_control
