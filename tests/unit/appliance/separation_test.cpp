// Faults that no reading tells apart, by the values of the network. What must come out follows from Kirchhoff: elements
// in series, read only across them all, read alike.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/locate/separation.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::Contains;
using ::testing::Not;
using Form = ApplianceFinding::Form;

std::vector<std::string> findings_in(const std::string& text) {
  const Appliance appliance = appliance_of(text);
  const Meter meter = read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json"));
  const auto name = [&](const PartFault& fault) {
    const PlacedPart& part = appliance.parts[fault.part];
    return part.id + "." + std::string(part.kind->descriptor().fault_modes[fault.fault].id);
  };
  std::vector<std::string> names;
  for (const ApplianceFinding& finding : locate::never_told_apart(appliance, meter))
    names.push_back(finding.other ? name(*finding.fault) + " = " + name(*finding.other) : name(*finding.fault));
  return names;
}

TEST(Separation, PartsInSeriesAreToldApartOnlyByAPointBetweenThem) {
  // Link and heater are read together at the plug alone: open is open. The limit has a point of its own.
  const std::vector<std::string> together = findings_in(fan_heater());
  EXPECT_THAT(together, Contains("link.acted = heater.open"));
  EXPECT_THAT(together, Not(Contains("limit.stuck-open = link.acted")));
  EXPECT_THAT(together, Not(Contains("limit.stuck-open = heater.open")));
  const std::vector<std::string> between = findings_in(fan_heater_with(R"("test_points": [)",
                                                                       R"("test_points": [
    {"id": "heater-in-place", "title": "Across the heater", "measure": "ohms", "from": "B", "to": "N", "minutes": "1 min"},)"));
  EXPECT_THAT(between, Not(Contains("link.acted = heater.open")));
  EXPECT_THAT(between, Contains("link.acted = link.lead-broken"));  // one part, whatever broke in it
}

TEST(Separation, NamesFaultsThatReadAsIfNothingWereWrong) {
  const std::vector<std::string> names = findings_in(fan_heater());
  EXPECT_THAT(names, Contains("fan.bearing-worn"));
  EXPECT_THAT(names, Contains("limit.welded-closed"));  // nothing warms it near its 95 °C
  EXPECT_THAT(names, Not(Contains("heater.open")));
}

TEST(Separation, LeavesOutFaultsThatTheFileRulesOut) {
  const std::vector<std::string> names = findings_in(
      fan_heater_with(R"("shaded-pole-230v",)", R"("shaded-pole-230v", "fault_weights": {"bearing-worn": 0},)"));
  EXPECT_THAT(names, Not(Contains("fan.bearing-worn")));
}

}  // namespace
}  // namespace ohmwright::testing
