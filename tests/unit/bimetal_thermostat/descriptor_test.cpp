#include "descriptor/descriptor.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

TEST(Descriptor, ListsStandInTheOrderOfTheirIndices) {
  const Descriptor& d = descriptor();
  EXPECT_EQ(d.measurands[contact_state].id, "state");
  EXPECT_EQ(d.measurands[link_state].id, "link");
  EXPECT_EQ(d.measurands[voltage_drop].id, "drop");
  EXPECT_EQ(d.conditions[part_temperature].id, "part_temperature");
  EXPECT_EQ(d.conditions[load_current].id, "load_current");
  EXPECT_EQ(d.conditions[lag].id, "lag");
  EXPECT_EQ(d.states[history].values[cooling].id, "cooling");
  EXPECT_EQ(d.error_sources[opening_gap].id, "opening-gap");
  EXPECT_EQ(d.error_sources[closing_gap].id, "closing-gap");
  EXPECT_EQ(d.rules[state_at_temperature].id, "state-at-temperature");
  EXPECT_EQ(d.rules[opening_point].id, "opening-point");
  EXPECT_EQ(d.rules[closing_point].id, "closing-point");
  EXPECT_EQ(d.rules[stuck].id, "stuck");
  EXPECT_EQ(d.rules[drop_under_load].id, "voltage-drop");
  EXPECT_EQ(d.rules[thermal_link].id, "thermal-link");
  EXPECT_EQ(d.rules[matching_class].id, "matching-class");
  EXPECT_EQ(d.advice[lift_a_lead].id, "lift-a-lead");
  EXPECT_EQ(d.advice[warm_on_bench].id, "warm-on-bench");
  EXPECT_EQ(d.advice[measure_drop].id, "measure-drop");
  EXPECT_EQ(d.advice[before_buying_contact].id, "before-buying-contact");
  EXPECT_EQ(d.advice[replacement_link].id, "replacement-link");
  EXPECT_EQ(d.advice.size(), unit_was_celsius + 1U);
  EXPECT_EQ(d.fault_modes[fault_welded].id, "welded-closed");
  EXPECT_EQ(d.fault_modes[fault_link_open].id, "link-open");
  EXPECT_EQ(d.terminals[link_2], "link-2");
}

TEST(Descriptor, TheTripPointsAreEssentialAndNothingElse) {
  for (const RuleDescriptor& rule : descriptor().rules)
    EXPECT_EQ(rule.essential, rule.id == "opening-point" || rule.id == "closing-point") << rule.id;
}

TEST(Descriptor, TheStateIsWhatIsTypedWithoutAName) {
  EXPECT_TRUE(descriptor().measurands[0].takes_contact_state);
  EXPECT_TRUE(descriptor().measurands[0].takes_bare_number);
}

TEST(Descriptor, EveryCautionIsThere) {
  for (const ProcedureDescriptor& procedure : descriptor().procedures)
    for (const std::string_view id : procedure.cautions)
      EXPECT_TRUE(caution_named(id) != nullptr || index_of(descriptor().cautions, id) != not_found) << id;
}

TEST(Descriptor, EveryProcedureBeginsWithTheSupplyAndForbidsBridging) {
  for (const ProcedureDescriptor& procedure : descriptor().procedures) {
    const auto names = [&](std::string_view id) {
      return std::find(procedure.cautions.begin(), procedure.cautions.end(), id) != procedure.cautions.end();
    };
    const std::string_view first = procedure.cautions.front();
    EXPECT_TRUE(first == "disconnect-power" || first == "live-measurement") << procedure.id;
    EXPECT_TRUE(names("flammable-refrigerant")) << procedure.id;
    EXPECT_TRUE(names("do-not-bridge")) << procedure.id;
  }
}

TEST(Descriptor, ChillingCarriesItsCautions) {
  for (const ProcedureDescriptor& procedure : descriptor().procedures) {
    if (procedure.id != "contact-chilled" && procedure.id != "trip-points") continue;
    for (const char* id : {"no-freeze-spray", "salted-ice"})
      EXPECT_NE(std::find(procedure.cautions.begin(), procedure.cautions.end(), id), procedure.cautions.end());
  }
}

TEST(Descriptor, AnOpenLinkLooksUpstream) {
  const auto& upstream = descriptor().fault_modes[fault_link_open].looks_upstream;
  EXPECT_NE(std::find(upstream.begin(), upstream.end(), "ends-defrost"), upstream.end());
}

TEST(Descriptor, TheSchemaRefusesWhatItShould) {
  const Schema schema(descriptor().ratings_schema, "ratings of a bimetal thermostat");
  const auto count = [&](std::string_view text) { return schema.problems(parse_document(text, "test").root).size(); };
  const std::string point = R"({"temperature":"13 degC","tolerance":"3 K"})";
  EXPECT_EQ(count(R"({"opening":)" + point + R"(,"closing":)" + point + "}"), 0U);
  EXPECT_EQ(count(R"({"opening":)" + point + R"(,"differential":{"difference":"18 K","tolerance":"4 K"}})"), 0U);
  EXPECT_GT(count(R"({"opening":)" + point + "}"), 0U);
  EXPECT_GT(count(R"({"closing":)" + point + "}"), 0U);
  EXPECT_GT(count(R"({"opening":{"temperature":"13 degC"},"closing":)" + point + "}"), 0U);
  EXPECT_GT(count(R"({"opening":{"temperature":13,"tolerance":"3 K"},"closing":)" + point + "}"), 0U);
  EXPECT_GT(count(R"({"opening":)" + point + R"(,"closing":)" + point + R"(,"action":"type-3"})"), 0U);
  EXPECT_GT(count(R"({"opening":)" + point + R"(,"closing":)" + point + R"(,"leads":1})"), 0U);
  EXPECT_GT(count(R"({"opening":)" + point + R"(,"closing":)" + point + R"(,"opens":"13 degC"})"), 0U);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
