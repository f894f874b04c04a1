#include <gtest/gtest.h>

#include "allocations.hpp"
#include "kind_fixture.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::string& ratings, const std::vector<Typed>& typed,
                          const std::vector<Change>& changes = {}) {
  const auto kind = coil(changes);
  const auto part = part_of(*kind, ratings);
  const Evidence evidence(kind->descriptor(), readings_of(*kind, typed), meters());
  return testing::allocations_of_judge(*part, evidence);
}

TEST(Judge, AllocatesNothing) {
  const std::string ratings = R"({"nominal": "82 ohm", "opens": "13 degC", "voltage": "240 V", "power": "5.2 kW"})";
  EXPECT_EQ(allocations_of_judge(ratings, {{"82 ohm", "25 degC"}}), 0);
  EXPECT_EQ(allocations_of_judge(ratings, {{"77.8 ohm", "31 degC +- 3 K"}}), 0);  // with advice
  EXPECT_EQ(allocations_of_judge(ratings,
                                 {{"82 ohm", "25 degC"},
                                  {"84 ohm", "31 degC"},
                                  {.value = "OL", .at = "25 degC", .range = "600 ohm"},
                                  {"60 ohm", "25 degC", Connection::in_circuit},
                                  {.value = "closed", .at = "8 degC", .measurand = "contact"},
                                  {.value = "100 ohm", .at = "8 degC", .measurand = "contact"},
                                  {.value = "21 A", .measurand = "current", .supply = Supply::live, .line = "240 V"}}),
            0);
  EXPECT_EQ(allocations_of_judge("", {{"82 ohm", "25 degC"}}), 0);
}

TEST(Judge, AllocatesNothingForAFormula) {
  const std::vector<Change> by_formula{
      {R"({"nominal": {"rating": "nominal"}, "tolerance": [{"rating": "tolerance"}, "7 %"]})",
       R"({"nominal": {"formula": "nominal * (234.5 K + (part_temperature - 0 degC)) / 259.5 K"}, "tolerance": "7 %"})"},
      {R"("temperature_coefficient": {"condition": "part_temperature", "per_kelvin": "0.38535645472061657 %", "reference": "25 degC"},)",
       ""}};
  const std::string ratings = R"({"nominal": "82 ohm"})";
  EXPECT_EQ(allocations_of_judge(ratings, {{"82 ohm", "25 degC"}, {"84 ohm", "31 degC +- 3 K"}}, by_formula), 0);
  EXPECT_EQ(allocations_of_judge(ratings, {{.value = "OL", .at = "25 degC", .range = "600 ohm"}}, by_formula), 0);
}

}  // namespace
}  // namespace ohmwright::kind_file
