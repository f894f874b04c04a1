// What connections alone tell of an appliance's file, on a fan heater whose wiring can be followed with a finger.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/appliance/wiring_graph.hpp>
#include <ohmwright/report/appliance_report.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using Form = ApplianceFinding::Form;

/// The sentences of the findings for which the file must be mended.
std::vector<std::string> wrong_in(const std::string& text) {
  const Appliance appliance = appliance_of(text);
  std::vector<std::string> sentences;
  for (const ApplianceFinding& finding : check_appliance(appliance))
    if (is_wrong(finding.form)) sentences.push_back(finding_text(appliance, finding, Sentences(UnitPreferences{})));
  return sentences;
}

/// "part.fault" of every fault that no reading shows.
std::vector<std::string> unseen_in(const Appliance& appliance) {
  std::vector<std::string> names;
  for (const ApplianceFinding& finding : check_appliance(appliance)) {
    if (finding.form != Form::unseen_fault) continue;
    const PlacedPart& part = appliance.parts[finding.fault->part];
    names.push_back(part.id + "." + std::string(part.kind->descriptor().fault_modes[finding.fault->fault].id));
  }
  return names;
}

TEST(ApplianceCheck, LeavesAWholeFileAlone) { EXPECT_THAT(wrong_in(fan_heater()), IsEmpty()); }

TEST(ApplianceCheck, FindsANodeThatIsWrittenInAnotherWay) {
  EXPECT_THAT(wrong_in(fan_heater_with(R"("lead-1": "B", "lead-2": "N")", R"("lead-1": "b", "lead-2": "N")")),
              ElementsAre("Node B: only link.lead-2 is there, and no test point. Is a part missing, or its node "
                          "written in another way elsewhere?",
                          "Node b: only heater.lead-1 is there, and no test point. Is a part missing, or its node "
                          "written in another way elsewhere?",
                          "Test point amperes: no current can pass the clamp, whatever is at fault.",
                          "Part link: no test point shows any fault of it. Add one at its terminals."));
}

TEST(ApplianceCheck, TakesALooseEndWithProbesForAPulledPlug) {
  const std::string text = fan_heater_with(R"("lead-1": "L", "lead-2": "N", "frame": "PE"}, "behind": ["back"]}
  ],
  "test_points": [)",
                                           R"("lead-1": "FO", "lead-2": "N", "frame": "PE"}, "behind": ["back"]}
  ],
  "test_points": [
    {"id": "fan-plug", "title": "Fan's plug", "measure": "ohms", "from": "FO", "to": "N", "minutes": "1 min"},)");
  EXPECT_THAT(wrong_in(text), IsEmpty());
}

TEST(ApplianceCheck, FindsAPartWhoseLeadsAreAtOneNode) {
  EXPECT_THAT(wrong_in(fan_heater_with(R"("lead-1": "B", "lead-2": "N")", R"("lead-1": "N", "lead-2": "N")")),
              Contains("Part heater: all its leads are at one node. Is one of them written wrongly?"));
}

TEST(ApplianceCheck, FindsASupplyThatFeedsNothing) {
  EXPECT_THAT(wrong_in(fan_heater_with(R"("live": "L", "neutral")", R"("live": "L1", "neutral")")),
              ElementsAre("Node L1 of the supply: no part is there.",
                          "Test point amperes: no current can pass the clamp, whatever is at fault."));
}

TEST(ApplianceCheck, FindsTestPointsThatTouchNothing) {
  EXPECT_THAT(wrong_in(fan_heater_with(R"("from": "L", "to": "N")", R"("from": "L", "to": "L")")),
              Contains("Test point plug: both probes are at one place."));
  // The fan's winding beside it would be read, but for its lifted lead.
  EXPECT_THAT(wrong_in(fan_heater_with(R"("from": "L", "to": "N", )",
                                       R"("from": "L", "to": "N", "lifted": ["fan.lead-1", "limit.contact-1"], )")),
              Contains("Test point plug: nothing leads from one probe to the other, whatever is at fault. Look at the "
                       "nodes of the parts between, and at what is lifted."));
}

TEST(ApplianceCheck, FindsAPartThatNoTestPointReaches) {
  // With the plug's own points gone, nothing but the clamp of the heater and the limit are looked at.
  const std::string text = fan_heater_with(
      R"({"id": "plug", "title": "At the plug", "measure": "ohms", "from": "L", "to": "N", "minutes": "1 min"},
    {"id": "plug-to-earth", "title": "Plug to earth", "measure": "ohms", "from": "N", "to": "PE", "minutes": "1 min"},)",
      "");
  // The fan stands beside the supply, whose volts it does not change: a clamp at the heater knows nothing of it.
  EXPECT_THAT(wrong_in(text), ElementsAre("Part fan: no test point shows any fault of it. Add one at its terminals."));
  const std::string without_clamp = text.substr(0, text.find(R"(    {"id": "amperes")")) + text.substr(text.find(R"(  ],
  "set_ups")"));
  std::string mended = without_clamp;
  mended.erase(mended.rfind(',', mended.find("\"set_ups\"") - 5), 1);
  EXPECT_THAT(wrong_in(mended),
              ElementsAre("Part link: no test point shows any fault of it. Add one at its terminals.",
                          "Part heater: no test point shows any fault of it. Add one at its terminals.",
                          "Part fan: no test point shows any fault of it. Add one at its terminals."));
}

TEST(ApplianceCheck, NamesFaultsThatNoReadingShows) {
  // A fan that is worn or stands still has the same ohms; a clamp at the heater is the only live reading.
  EXPECT_THAT(unseen_in(appliance_of(fan_heater())), Contains("fan.bearing-worn"));
  EXPECT_THAT(unseen_in(appliance_of(fan_heater())), ::testing::Not(Contains("heater.leaks-to-frame")));
}

TEST(WiringGraph, FindsTheEdgesThatAReadingDependsOn) {
  // 0 -a- 1 -b- 2, beside it 0 -c- 2, a tail 1 -d- 3, an island 4 -e- 5.
  WiringGraph graph(6);
  const std::size_t a = graph.join(0, 1);
  const std::size_t b = graph.join(1, 2);
  const std::size_t c = graph.join(0, 2);
  const std::size_t d = graph.join(1, 3);
  const std::size_t e = graph.join(4, 5);
  const std::vector<bool> across = graph.edges_between(0, 2);
  EXPECT_TRUE(across[a] && across[b] && across[c]);
  EXPECT_FALSE(across[d] || across[e]);
  const std::vector<bool> tail = graph.edges_between(1, 3);
  EXPECT_TRUE(tail[d]);
  EXPECT_FALSE(tail[a] || tail[b] || tail[c]);
  EXPECT_FALSE(graph.is_joined(0, 4));
  EXPECT_TRUE(graph.is_joined(0, 3));
  EXPECT_FALSE(graph.edges_on_a_ring_with(d)[d]);
  EXPECT_TRUE(graph.edges_on_a_ring_with(a)[c]);
}

TEST(WiringGraph, KnowsTwoEdgesBetweenTheSamePoints) {
  WiringGraph graph(2);
  const std::size_t one = graph.join(0, 1);
  const std::size_t other = graph.join(0, 1);
  EXPECT_TRUE(graph.edges_on_a_ring_with(one)[other]);
}

}  // namespace
}  // namespace ohmwright::testing
