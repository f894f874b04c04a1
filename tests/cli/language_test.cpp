// Texts come through gettext, from the option and from the environment, with no locale installed but C.UTF-8.

#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::run_program;

testing::Ran a_marginal_reading(const std::string& language) {
  return run_program({"check", "thermistor", "11.45k", "--at", "23C", "--ratings", "ntc-10k-b3977", "--width", "100",
                      "--language", language});
}

TEST(Language, OfTheOptionReachesTheFrameworkAndThePlugin) {
  EXPECT_THAT(run_program({"check", "thermistor", "OL", "--language", "qps"}).out,
              AllOf(HasSubstr("ÖÜT ÖF SPËC: Dëfröst sënsör"), HasSubstr("Rëädïngs")));
  EXPECT_EQ(run_program({"--language", "qps", "check", "thermistor", "OL"}).out,
            run_program({"check", "thermistor", "OL", "--language", "qps"}).out)
      << "before the verb it means the same";
}

// "qpb" has every text of the framework and of the kind in brackets: see made_languages.sh.
TEST(Language, ReachesEverySentenceOfThePageWithItsArgumentsFilled) {
  const testing::Ran ran = a_marginal_reading("qpb");
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("⟦The chance that it is within its limits is 5"),  // the framework's
                             HasSubstr("⟦At 23.0 °C a good part reads 10.36 kΩ"),         // the kind's
                             HasSubstr("⟦⟦CAN'T TELL YET⟧: ⟦Defrost sensor⟧")));
  EXPECT_THAT(ran.out, Not(HasSubstr("{")));
  std::istringstream lines(ran.out);
  int sentences = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.rfind("    ", 0) == 0) continue;  // goes on with the sentence above
    EXPECT_THAT(line, HasSubstr("⟦"));
    ++sentences;
  }
  EXPECT_GT(sentences, 15);
}

// The heater has no catalogue: what core says of every part's insulation comes from the framework's, the rest is
// English.
TEST(Language, OfTheFrameworkReachesWhatCoreSaysOfEveryKind) {
  const testing::Ran ran = run_program({"check", "heater", "--lead-off", "32", "insulation=0.2Mohm", "--test", "500V",
                                        "--ratings", "heater-450w-120v", "--width", "200", "--language", "qpb"});
  EXPECT_THAT(ran.out, HasSubstr("⟦To the frame it has only 0.2")) << ran.err;
}

// "qpf" is the same with wrong names in every field: such a sentence is English, whole, and the others are not.
TEST(Language, WithWrongFieldsFallsBackToEnglish) {
  const testing::Ran ran = a_marginal_reading("qpf");
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("  The chance that it is within its limits is 5"),
                             HasSubstr("  - At 23.0 °C a good part reads 10.36 kΩ"), HasSubstr("⟦CAN'T TELL YET⟧"),
                             HasSubstr("⟦Why⟧")));
  EXPECT_THAT(ran.out, AllOf(Not(HasSubstr("{")), Not(HasSubstr("no_"))));
}

TEST(Language, ReachesHelpAndTheKindsPage) {
  EXPECT_THAT(run_program({"--help", "--language", "qpb"}).out, HasSubstr("⟦Usage⟧"));
  EXPECT_THAT(run_program({"check", "--language=qpb", "--help"}).out, HasSubstr("⟦Options of every verb⟧"));
  EXPECT_THAT(run_program({"kinds", "thermistor", "--language", "qpb"}).out,
              AllOf(HasSubstr("⟦What can be read⟧"), HasSubstr("⟦Resistance across the two leads⟧")));
  EXPECT_THAT(run_program({"vectors", "thermistor", "--language", "qpb"}).out, HasSubstr(", 0 differ⟧"));
}

TEST(Language, OfTheOptionIsStrongerThanTheEnvironment) {
  EXPECT_THAT(run_program({"--help", "--language", "qpb"}, {"LANGUAGE=qps", "LC_ALL=C"}).out, HasSubstr("⟦Usage⟧"));
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

TEST(Language, SpanishIsSpokenWhereItsCatalogueIsWhole) {
  const testing::Ran ran =
      run_program({"check", "--language", "es", "thermal-link", "OL", "--lead-off", "--at", "22C"});
  EXPECT_THAT(ran.out, HasSubstr("No lo puentee nunca")) << ran.err;
}

TEST(Language, OfTheWordsThatFillASentenceIsThatOfTheSentence) {
  EXPECT_THAT(run_program({"compare", "thermal-link", "tf-72", "tf-184", "--language", "es", "--width", "200"}).out,
              HasSubstr("Cerrado o abierto: las piezas buenas conmutan"));
  const std::string rows = "time,power\n2024-03-04 00:00,100\n2024-03-04 00:01,110\n2024-03-04 00:02,105\n";
  EXPECT_THAT(
      run_program({"log", "-", "--language", "es", "--width", "200"}, {}, rows).out,
      AllOf(HasSubstr("encabezado: sí."), HasSubstr("escrito como fecha y hora."), HasSubstr("según el encabezado")));
}

TEST(Language, ReachesWhatAShippedApplianceCallsItsParts) {
  const testing::Ran ran =
      run_program({"appliance", "show", "upright-timer-bimetal-120v", "--width", "120", "--language", "es"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Vertical sin escarcha, temporizador de levas y bimetal, 120 V"),
                             HasSubstr("Resistencia de descongelación"), HasSubstr("Empalme entre termostato"),
                             Not(HasSubstr("Defrost heater"))));
  EXPECT_THAT(run_program({"appliance", "list", "--language", "es"}).out, HasSubstr("Horno eléctrico empotrado"));
}

}  // namespace
}  // namespace ohmwright
