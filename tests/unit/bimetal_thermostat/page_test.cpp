// What a technician reads, where the words depend on more than one rule.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/report/verdict_report.hpp>

#include "thermostat_fixture.hpp"
#include "thermostat_part.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;
using ::testing::HasSubstr;
using ::testing::Not;

std::string page_of(const std::optional<ThermostatRatings>& ratings, const std::vector<Reading>& readings) {
  const ThermostatPart part(ratings);
  const Evidence evidence(descriptor(), readings, basic_meter());
  const Verdict verdict = ohmwright::judge(part, descriptor(), evidence, {});
  const VerdictReport report{.descriptor = descriptor(),
                             .verdict = verdict,
                             .evidence = evidence,
                             .readings = readings,
                             .confidence = 0.95,
                             .part_name = {},
                             .part_title = {},
                             .meter_title = "test",
                             .meter_assumed = false,
                             .every_rule = false};
  return verdict_page(report, Sentences(UnitPreferences{}), {1000, false});
}

TEST(Page, BeginsWithTheCautions) {
  const std::string page = page_of(plain_ratings(), series({{'O', 22}}));
  EXPECT_LT(page.find("Unplug it"), page.find("CAN'T TELL YET"));
  EXPECT_LT(page.find("Never bridge"), page.find("CAN'T TELL YET"));
}

TEST(Page, CallsOpenAtRoomTemperatureNormal) {
  EXPECT_THAT(page_of(plain_ratings(), series({{'O', 22}})), HasSubstr("normal"));
}

TEST(Page, NamesTheGapAmongTheDoubts) {
  const std::string page = page_of(plain_ratings(), series({{'C', 12.2}, {'O', 13.4}, {'O', -4}, {'C', -5}}));
  EXPECT_THAT(page, HasSubstr("IN SPEC"));
  EXPECT_THAT(page, HasSubstr("The chance that it is within its limits is"));
  EXPECT_THAT(page, HasSubstr("the gap between the last closed"));
}

TEST(Page, PromisesNoChanceBesideAnotherVerdict) {
  const std::vector<Reading> opened = series({{'C', 12.2}, {'O', 13.4}});
  EXPECT_THAT(page_of(plain_ratings(), opened), Not(HasSubstr("The chance that it is within")));
  std::vector<Reading> burnt = series({{'C', 12.2}, {'O', 13.4}, {'O', -4}, {'C', -5}});
  burnt.push_back(readings_of({{.value = "7.5 V", .supply = Supply::live, .measurand = "drop", .load = "3.75 A"}})[0]);
  const std::string page = page_of(plain_ratings(), burnt);
  EXPECT_THAT(page, HasSubstr("OUT OF SPEC"));
  EXPECT_THAT(page, Not(HasSubstr("The chance that it is within")));
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
