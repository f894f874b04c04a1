// Texts come through gettext, from the option and from the environment, with no locale installed but C.UTF-8.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::run_program;

TEST(Language, OfTheOptionReachesTheFrameworkAndThePlugin) {
  EXPECT_THAT(run_program({"check", "thermistor", "OL", "--language", "qps"}).out,
              AllOf(HasSubstr("ÖÜT ÖF SPËC: Dëfröst sënsör"), HasSubstr("Rëädïngs")));
}

TEST(Language, OfTheEnvironmentIsTakenToo) {
  EXPECT_THAT(run_program({"check", "thermistor", "OL"}, {"LANGUAGE=qps"}).out, HasSubstr("ÖÜT ÖF SPËC"));
}

TEST(Language, ThatNobodyTranslatedIsEnglish) {
  EXPECT_THAT(run_program({"check", "thermistor", "OL", "--language", "xx"}).out, HasSubstr("OUT OF SPEC"));
}

TEST(Language, ChangesNoNumber) {
  EXPECT_THAT(run_program({"check", "thermistor", "11.0k", "--at", "23C", "--language", "qps"}).out,
              HasSubstr("11.00 kΩ"));
}

}  // namespace
}  // namespace ohmwright
