#include <gtest/gtest.h>

#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright {
namespace {

TEST(LetterCase, LowersLatinLettersAndNothingElse) { EXPECT_EQ(lower_case("OL k\u03A9 \u00C4"), "ol k\u03A9 \u00C4"); }

TEST(LetterCase, ANameIsTheSameHoweverItsWordsAreParted) {
  for (const char* said : {"coil-sensor", "Coil Sensor", "COIL_SENSOR", "coil sensor"})
    EXPECT_EQ(spoken_name(said), "coil-sensor") << said;
  EXPECT_NE(spoken_name("coilsensor"), "coil-sensor");
}

}  // namespace
}  // namespace ohmwright
