#include "descriptor/descriptor.hpp"

#include <set>

#include <gtest/gtest.h>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "rules/generic_classes.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

TEST(Descriptor, ListsStandInTheOrderOfTheirIndices) {
  const Descriptor& d = descriptor();
  EXPECT_EQ(d.measurands[resistance].id, "resistance");
  EXPECT_EQ(d.measurands[voltage].id, "voltage");
  EXPECT_EQ(d.conditions[part_temperature].id, "part_temperature");
  EXPECT_EQ(d.conditions[coil_temperature].id, "coil_temperature");
  EXPECT_EQ(d.rules[resistance_at_temperature].id, "resistance-at-temperature");
  EXPECT_EQ(d.rules[open_sensor].id, "open");
  EXPECT_EQ(d.rules[in_circuit].id, "in-circuit");
  EXPECT_EQ(d.rules[moisture_leakage].id, "moisture-leakage");
  EXPECT_EQ(d.rules[end_of_defrost].id, "end-of-defrost");
  EXPECT_EQ(d.rules[twin_comparison].id, "twin-comparison");
  EXPECT_EQ(d.advice[ice_point].id, "ice-point");
  EXPECT_EQ(d.advice[state_temperature].id, "state-temperature");
  EXPECT_EQ(d.advice[read_unplugged].id, "read-unplugged");
  EXPECT_EQ(d.fault_modes[fault_open].id, "open");
  EXPECT_EQ(d.fault_modes[fault_misplaced].id, "misplaced");
}

TEST(Descriptor, OnlyTheResistanceIsEssential) {
  for (const RuleDescriptor& rule : descriptor().rules)
    EXPECT_EQ(rule.essential, rule.id == "resistance-at-temperature") << rule.id;
}

TEST(Descriptor, EveryCautionIsThere) {
  for (const ProcedureDescriptor& procedure : descriptor().procedures)
    for (const std::string_view id : procedure.cautions)
      EXPECT_TRUE(caution_named(id) != nullptr || index_of(descriptor().cautions, id) != not_found) << id;
}

TEST(Descriptor, EveryProcedureBeginsWithTheSupply) {
  for (const ProcedureDescriptor& procedure : descriptor().procedures) {
    const std::string_view first = procedure.cautions.front();
    EXPECT_TRUE(first == "disconnect-power" || first == "live-measurement") << procedure.id;
    EXPECT_NE(std::find(procedure.cautions.begin(), procedure.cautions.end(), "flammable-refrigerant"),
              procedure.cautions.end())
        << procedure.id;
  }
}

TEST(Descriptor, NamesOfClassesAllocateNothing) {
  std::set<std::string_view> names;
  for (const GenericClass& one : generic_classes()) {
    EXPECT_LE(one.name.size(), 15U) << one.name;
    EXPECT_TRUE(names.insert(one.name).second) << one.name;
  }
}

TEST(Descriptor, SchemaIsDraftSevenAndRefusesWhatItShould) {
  const Schema schema(descriptor().ratings_schema, "ratings of a defrost sensor");
  const auto count = [&](std::string_view text) { return schema.problems(parse_document(text, "test").root).size(); };
  EXPECT_EQ(
      count(
          R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"3977 K"},"tolerance":{"resistance":"5 %"}})"),
      0U);
  EXPECT_GT(count(R"({"tolerance":{"resistance":"5 %"}})"), 0U);
  EXPECT_GT(count(R"({"curve":{"form":"gamma"}})"), 0U);
  EXPECT_GT(count(R"({"curve":{"form":"beta","beta":"3977 K"}})"), 0U);
  EXPECT_GT(count(R"({"curve":{"form":"beta","reference_resistance":10000,"beta":"3977 K"}})"), 0U);
  EXPECT_GT(count(R"({"curve":{"form":"steinhart-hart","a":1e-3,"b":2e-4,"c":1e-7}})"), 0U);
  EXPECT_GT(count(R"({"curve":{"form":"chart","rows":[]}})"), 0U);
  EXPECT_GT(count(R"({"curve":{"form":"iec-60751","ice_point_resistance":"1 kohm","class":"D"}})"), 0U);
  EXPECT_GT(
      count(
          R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"3977 K"},"tolerance":{"resistance":"5 %","temperature":"1 K"}})"),
      0U);
  EXPECT_GT(count(R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"3977 K","betta_between":"x"}})"),
            0U);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
