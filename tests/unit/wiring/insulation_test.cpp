#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;
using ::testing::Contains;

TEST(Insulation, ATesterDecides) {
  EXPECT_EQ(text_of(judge(splice(), {tester("20 Mohm")}), insulation), "insulates");
  EXPECT_EQ(text_of(judge(splice(), {tester("OL")}), insulation), "insulates-past-range");
  EXPECT_EQ(text_of(judge(splice(), {tester("0.2 Mohm")}), insulation), "leaks");
  EXPECT_EQ(text_of(judge(splice(), {tester("1.000 Mohm")}), insulation), "not-told-apart");
  EXPECT_EQ(verdict_on(splice(), {across("0.1 V"), tester("20 Mohm")}), Outcome::within_limits);
  EXPECT_EQ(verdict_on(splice(), {across("0.1 V"), tester("0.2 Mohm")}), Outcome::out_of_limits);
  EXPECT_THAT(advice_of(judge(splice(), {tester("0.2 Mohm")})), Contains("do-not-energise"));
}

TEST(Insulation, AnOhmmeterProvesNone) {
  EXPECT_EQ(text_of(judge(splice(), {ohmmeter("20 Mohm")}), insulation), "ohmmeter-is-no-tester");
  EXPECT_EQ(text_of(judge(splice(), {ohmmeter("OL")}), insulation), "ohmmeter-past-range");
  EXPECT_EQ(verdict_on(splice(), {across("0.1 V"), ohmmeter("OL")}), Outcome::undecided);
  EXPECT_EQ(verdict_on(splice(), {ohmmeter("0.05 Mohm")}), Outcome::out_of_limits);
}

TEST(Insulation, WetOrWithItsEndsOnALeakIsNotYetTheWires) {
  EXPECT_EQ(text_of(judge(splice(), {tester("0.2 Mohm", Moisture::wet)}), insulation), "leaks-while-wet");
  EXPECT_THAT(advice_of(judge(splice(), {tester("0.2 Mohm", Moisture::wet)})), Contains("dry-and-repeat"));
  EXPECT_EQ(text_of(judge(splice(), {tester("0.2 Mohm", Moisture::wet), tester("20 Mohm", Moisture::dry)}), insulation),
            "insulates");
  Typed ends_on = tester("0.2 Mohm");
  ends_on.connection = Connection::unstated;
  EXPECT_EQ(text_of(judge(splice(), {ends_on}), insulation), "leaks-connection-unstated");
  EXPECT_THAT(advice_of(judge(splice(), {ends_on})), Contains("insulation-tester"));
}

TEST(Insulation, SaysWhyItIsSilent) {
  EXPECT_EQ(text_of(judge(splice(), {{.value = "0.3 ohm"}}), insulation), "no-reading");
  Typed live = tester("20 Mohm");
  live.supply = Supply::live;
  EXPECT_EQ(text_of(judge(splice(), {live}), insulation), "only-live");
}

}  // namespace
}  // namespace ohmwright::wiring
