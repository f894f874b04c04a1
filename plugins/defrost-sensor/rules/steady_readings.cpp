#include "rules/steady_readings.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex { steady, moving, jumping, not_repeated };

/// Three readings within 0.5 % of each other scatter by 0.3 % (range over 1.69); common practice, no source.
constexpr double steady_scatter = 0.003;
constexpr double range_of_three = 1.69;
}  // namespace

RuleDescriptor describe_steady_readings() {
  return {"steady-readings",
          OHMWRIGHT_TEXT("Repeated readings stand still"),
          false,
          can_pass | can_be_undecided,
          "common practice, no source: three readings a minute apart within 0.5 %",
          {
              {"steady", OHMWRIGHT_TEXT("The repeated readings stand still (within about {spread_percent} %).")},
              {"moving",
               OHMWRIGHT_TEXT("The repeated readings still move (by about {spread_percent} %): wait until three, a "
                              "minute apart, agree within 0.5 %.")},
              {"jumping",
               OHMWRIGHT_TEXT(
                   "The repeated readings jump by about {spread_percent} %, so their mean says nothing: a contact "
                   "comes and goes.")},
              {"not-repeated",
               OHMWRIGHT_TEXT("Not judged: nothing was read more than once, or every repeat showed the same digits.")},
          }};
}

void judge_steady_readings(const Scene& scene) {
  double worst = -1.0;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_ohms(reading) && reading.shown == Shown::value && reading.displayed != 0.0)
      worst = std::max(worst, relative_scatter(scene.evidence, reading));
  if (worst < 0.0) {
    scene.findings.add(steady_readings, Outcome::silent, not_repeated);
    return;
  }
  const bool still = worst <= steady_scatter;
  const Text text = still ? steady : worst <= jumping_scatter ? moving : jumping;
  Finding& finding = scene.findings.add(steady_readings, still ? Outcome::within_limits : Outcome::undecided, text);
  finding.holds_back = !still;  // of a sensor that still follows the room nothing is known yet
  tell(finding, "scatter_percent", 100.0 * worst);
  tell(finding, "spread_percent", 100.0 * worst * range_of_three);
}

}  // namespace ohmwright::defrost_sensor
