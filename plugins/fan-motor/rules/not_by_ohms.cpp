#include "rules/not_by_ohms.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { semiconductors, not_electronic, not_read };

}  // namespace

RuleDescriptor describe_not_by_ohms() {
  return {"not-by-ohms",
          OHMWRIGHT_TEXT("Ohms of an electronic motor"),
          false,
          can_be_undecided,
          "common practice, no source: semiconductors have no ohms of their own",
          {
              {"semiconductors",
               OHMWRIGHT_TEXT(
                   "An electronically commutated motor is never judged by ohms: its leads end in semiconductors, "
                   "and the meter shows what its own test voltage makes of them. First its supply volts, then the "
                   "control signal, the ground, the tachometer, then the motor.")},
              {"not-electronic", OHMWRIGHT_TEXT("Not asked: it is wound, and its ohms can be judged.")},
              {"not-read", OHMWRIGHT_TEXT("Not asked: no ohms of it were read.")},
          }};
}

void judge_not_by_ohms(const Scene& scene) {
  bool read = false;
  for (const PreparedReading& reading : scene.evidence.readings()) read = read || is_of_a_winding(reading);
  if (!scene.is_electronic() || !read)
    scene.findings.add(not_by_ohms, Outcome::silent, scene.is_electronic() ? not_read : not_electronic);
  else
    scene.findings.add(not_by_ohms, Outcome::undecided, semiconductors);
}

}  // namespace ohmwright::fan_motor
