#include <gmock/gmock.h>

#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using ::testing::ElementsAre;

/// The kind of the framework's tests, with an advice that asks for live work.
Descriptor with_live_advice() {
  Descriptor d = testing::test_descriptor();
  d.measurands.push_back({"current", "Current", Dimension::current, "A", false});
  d.procedures.push_back({"clamp", "Clamp it", "current", 5.0, {{"decide", "decide"}}, {"live-measurement"}});
  d.advice = {{"again", "read again"}, {"clamp", "clamp it", "clamp"}};
  return d;
}

TEST(Cautions, AreThoseOfTheReadingsAndOfWhatTheAdviceAsksFor) {
  const Descriptor d = with_live_advice();
  const std::vector<Reading> readings{testing::resistance_reading("11.0 kohm")};
  std::vector<Advice> advice(1);
  EXPECT_THAT(caution_ids(d, readings, advice), ElementsAre("disconnect-power"));
  advice[0].text = 1;
  EXPECT_THAT(caution_ids(d, readings, advice), ElementsAre("disconnect-power", "live-measurement"));
}

TEST(Cautions, AfterALiveReadingCutTheSupplyBeforeWhateverIsAdvised) {
  const Descriptor d = with_live_advice();
  std::vector<Reading> readings{testing::resistance_reading("11.0 kohm")};
  readings.front().supply = Supply::live;
  std::vector<Advice> advice(1);  // one that names no procedure
  EXPECT_THAT(caution_ids(d, readings, advice), ::testing::IsSupersetOf({"disconnect-power", "prove-dead"}));
}

TEST(Cautions, OfWorkAreThoseOfTheStepAndOfAllDeadProcedures) {
  Descriptor d = with_live_advice();
  d.procedures.push_back({"lift", "Lift it out", "current", 5.0, {{"lift", "lift"}}, {"prove-dead", "moving-parts"}});
  const std::vector<std::string_view> ids = caution_ids_of_work("replace-a-part", d);
  EXPECT_THAT(ids, ::testing::IsSupersetOf({"disconnect-power", "capacitor-charge", "moving-parts"}));
  EXPECT_THAT(ids, ::testing::Not(::testing::Contains("live-measurement"))) << "of a procedure that no exchange needs";
  EXPECT_EQ(ids.size(), cautions_of_step("replace-a-part").size() + 1) << "each once";
}

}  // namespace
}  // namespace ohmwright
