#include "rules/steady_readings.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex { steady, moving, jumping, not_repeated };

/// Three readings within 0.5 % of each other scatter by 0.3 % (range over 1.69); common practice, no source.
constexpr double steady_scatter = 0.003;
/// No soak explains this much: a contact that comes and goes (common practice, no source).
constexpr double jumping_scatter = 0.05;

/// Standard deviation of one reading among its repeats, as a share of the value; negative where none were taken.
double relative_scatter(const Scene& scene, const PreparedReading& reading) {
  for (const Term& term : reading.value.terms()) {
    const ErrorSource& source = scene.evidence.sources()[term.source];
    if (source.shape != Shape::student_t) continue;
    return std::abs(term.standard_uncertainty) * std::sqrt(source.degrees_of_freedom + 1.0) /
           std::abs(reading.displayed);
  }
  return -1.0;
}

}  // namespace

RuleDescriptor describe_steady_readings() {
  return {
      "steady-readings",
      OHMWRIGHT_TEXT("Repeated readings stand still"),
      false,
      can_pass | can_be_undecided,
      "common practice, no source: three readings a minute apart within 0.5 %",
      {
          {"steady", OHMWRIGHT_TEXT("The repeated readings stand still (they scatter by {scatter_percent} %).")},
          {"moving",
           OHMWRIGHT_TEXT("The repeated readings still move (they scatter by {scatter_percent} %): wait until three, a "
                          "minute apart, agree within 0.5 %.")},
          {"jumping",
           OHMWRIGHT_TEXT("The repeated readings jump (they scatter by {scatter_percent} %): a contact comes and goes. "
                          "Move lead and connector while you watch the meter.")},
          {"not-repeated",
           OHMWRIGHT_TEXT("Not judged: nothing was read more than once, or every repeat showed the same digits.")},
      }};
}

void judge_steady_readings(const Scene& scene) {
  double worst = -1.0;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_ohms(reading) && reading.shown == Shown::value && reading.displayed != 0.0)
      worst = std::max(worst, relative_scatter(scene, reading));
  if (worst < 0.0) {
    scene.findings.add(steady_readings, Outcome::silent, not_repeated);
    return;
  }
  const bool still = worst <= steady_scatter;
  const Text text = still ? steady : worst <= jumping_scatter ? moving : jumping;
  Finding& finding = scene.findings.add(steady_readings, still ? Outcome::within_limits : Outcome::undecided, text);
  tell(finding, "scatter_percent", 100.0 * worst);
}

}  // namespace ohmwright::defrost_sensor
