#include "rules/insulation.hpp"

#include <algorithm>
#include <limits>

#include <ohmwright/component/insulation_when_wet.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  electronics_inside = InsulationText::first_own,
  no_reading,
  still_to_read,
  ran_still_to_read,
  extra_low_voltage,
  leaks_when_wet,
  bore_its_test,
  electronics_by_ohmmeter,
  electronics_tested_low,
};

bool passed(const Scene& scene, RuleIndex rule) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [&](const Finding& finding) {
    return finding.rule == rule && finding.outcome == Outcome::within_limits;
  });
}

/// Once ohms, capacitor or running have passed, its insulation is the next thing that matters, read or not. An
/// electronic motor is not tested so.
void say_what_was_not_read(const Scene& scene, const InsulationRule& asked) {
  const bool ran = passed(scene, running);
  if (insulation_was_read_live(scene.evidence, asked))
    scene.findings.add(insulation, Outcome::silent, InsulationText::only_live);
  else if (!scene.is_electronic() &&
           (ran || passed(scene, winding_resistance) || passed(scene, windings_add_up) || passed(scene, capacitor)))
    scene.findings.add(insulation, Outcome::undecided, ran ? ran_still_to_read : still_to_read);
  else
    scene.findings.add(insulation, Outcome::silent, no_reading);
}

InsulationRule asked_of(const Scene& scene) {
  const Resistance least =
      scene.ratings == nullptr ? least_insulation(EarthClass::unstated) : scene.ratings->insulation;
  return {insulation, insulation_resistance, test_voltage, least.value()};
}

}  // namespace

RuleDescriptor describe_insulation() {
  return {
      "insulation",
      OHMWRIGHT_TEXT("Insulation to the frame"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC, class I at least 1 Mohm, class II 2 Mohm, class "
      "III 0.25 Mohm",
      insulation_texts(
          InsulationPlace::frame,
          {
              {"electronics-inside",
               OHMWRIGHT_TEXT("A 500 V test destroys the electronics of such a motor: its insulation is not tested so. "
                              "Unplug it before anything beside it is.")},
              {"no-reading",
               OHMWRIGHT_TEXT("Not judged: the insulation to the frame was not read, and the ohms of a winding say "
                              "nothing of it.")},
              {"still-to-read",
               OHMWRIGHT_TEXT("Its insulation to the frame was not read, and good ohms say nothing of it: it is not "
                              "yet proved safe to energise.")},
              {"ran-still-to-read",
               OHMWRIGHT_TEXT("Its insulation to the frame was not read, and that it runs says nothing of it: it is "
                              "not yet proved safe to energise.")},
              {"extra-low-voltage",
               OHMWRIGHT_TEXT("To the frame the ohmmeter finds no less than the {least} of a part for extra-low "
                              "voltage (class III). Its electronics bear no 500 V, so no more is asked of it, if its "
                              "supply is safely separated from the mains.")},
              {"leaks-when-wet",
               OHMWRIGHT_TEXT("Dried it insulates, but wet it had only {wet} to the frame, where {least} is the least: "
                              "water gets in, and frost and water come again. Do not energise it as it is.")},
              {"bore-its-test",
               OHMWRIGHT_TEXT("Tested with {volts} it had no less than {least} to the frame. Since then an ohmmeter "
                              "finds no less either, and it runs as it should: its electronics bore the test. Do not "
                              "test it so again.")},
              {"electronics-by-ohmmeter",
               OHMWRIGHT_TEXT(
                   "With few volts it was found to have no short to the frame, which proves no insulation against the "
                   "mains, and a 500 V test destroys its electronics: do not test it so.")},
              {"electronics-tested-low",
               OHMWRIGHT_TEXT(
                   "Tested with {volts} it had only {measured} to the frame, where {least} is the least; so many volts "
                   "may have broken its electronics down. Do not energise it; read it with an ohmmeter.")},
          })};
}

namespace {

/// Whether it shows no less than what is asked, whatever that proves.
bool shows_the_least(const Scene& scene, const PreparedReading& reading, const InsulationRule& asked) {
  if (shows_more_than_range(reading)) return reading.range_full_scale >= asked.least;
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Conformance p = conformance_of(insulation_shown(reading), scene.evidence.sources(), asked.least, infinity);
  return decide(p, scene.settings.confidence) == Outcome::within_limits;
}

/// Whether an ohmmeter has told all that can be told: a part for extra-low voltage with electronics inside.
bool is_of_extra_low_voltage(const Scene& scene, const PreparedReading& reading, const InsulationRule& asked) {
  return scene.is_electronic() && scene.ratings->earth_class == EarthClass::three &&
         shows_the_least(scene, reading, asked);
}

/// Whether a reading after that test is one of which `predicate` is true.
template <class Predicate>
bool any_after(const Scene& scene, const PreparedReading& test, Predicate predicate) {
  bool later = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (later && predicate(reading)) return true;
    if (&reading == &test) later = true;
  }
  return false;
}

/// It was seen running after that test, which may have destroyed it.
bool ran_after(const Scene& scene, const PreparedReading& test) {
  return any_after(scene, test, [](const PreparedReading& r) {
    return (r.measurand == speed || r.measurand == tach) && !is_in_circuit(r);
  });
}

/// It bore the volts of that test: an ohmmeter found no leak since, and it was seen running as a good one does.
bool bore(const Scene& scene, const PreparedReading& test, const InsulationRule& asked) {
  const bool read_since = any_after(scene, test, [&](const PreparedReading& r) {
    return r.measurand == insulation_resistance && !is_live(r) && !is_in_circuit(r) &&
           r.condition(asked.test_voltage) == nullptr && shows_the_least(scene, r, asked);
  });
  return read_since && ran_after(scene, test) && passed(scene, running);
}

/// A test that an electronic motor should not have had, and passed.
void judge_test_of_electronics(const Scene& scene, const PreparedReading& test, const InsulationRule& asked) {
  const bool bore_it = bore(scene, test, asked);
  Finding& finding = scene.findings.add(insulation, bore_it ? Outcome::within_limits : Outcome::undecided,
                                        bore_it ? bore_its_test : electronics_inside);
  finding.holds_back = !bore_it && !ran_after(scene, test);
  if (!bore_it) return;
  finding.limits.lower = ohms(asked.least);
  tell(finding, "least", *finding.limits.lower);
  tell(finding, "volts", volts(test.condition(asked.test_voltage)->value()));
}

/// It passes by an ohmmeter: nothing more can be asked of a part for extra-low voltage with electronics inside.
void say_extra_low_voltage(const Scene& scene, const InsulationRule& asked) {
  Finding& finding = scene.findings.add(insulation, Outcome::within_limits, extra_low_voltage);
  finding.limits.lower = ohms(asked.least);
  tell(finding, "least", *finding.limits.lower);
}

/// As an ohmmeter, or a tester of few volts, tells it of electronics that no tester may prove.
void say_what_electronics_bear(const Scene& scene) {
  if (!scene.is_electronic()) return;
  Finding& finding = scene.findings.findings().back();
  switch (finding.text) {
    case InsulationText::ohmmeter_is_no_tester:
    case InsulationText::ohmmeter_past_range:
    case InsulationText::ohmmeter_more_than:
    case InsulationText::few_volts:
    case InsulationText::few_volts_past_range:
      finding.text = electronics_by_ohmmeter;
      return;
    case InsulationText::leaks_at_more_volts:
      finding.text = electronics_tested_low;
      return;
    default:
      return;
  }
}

/// Of electronics no wet test with 500 V may be asked: what an ohmmeter found wet, an ohmmeter lifts that finds no leak
/// wet since.
bool ohmmeter_lifts_wet_leak(const Scene& scene, const InsulationRule& asked) {
  if (!scene.is_electronic()) return false;
  const PreparedReading* leak = nullptr;
  bool lifted = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != insulation_resistance || reading.moisture != Moisture::wet || is_live(reading) ||
        is_in_circuit(reading))
      continue;
    if (reading.shown == Shown::value && reading.displayed < asked.least) {
      leak = &reading;
      lifted = false;
    } else if (leak != nullptr && leak->condition(asked.test_voltage) == nullptr) {
      lifted = lifted || shows_the_least(scene, reading, asked);
    }
  }
  return lifted;
}

}  // namespace

void judge_insulation(const Scene& scene) {
  const InsulationRule asked = asked_of(scene);
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading == nullptr)
    say_what_was_not_read(scene, asked);
  else if (scene.is_electronic() && by_insulation_tester(*reading, asked) && shows_the_least(scene, *reading, asked))
    judge_test_of_electronics(scene, *reading, asked);
  else if (is_of_extra_low_voltage(scene, *reading, asked))
    say_extra_low_voltage(scene, asked);
  else {
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
    say_what_electronics_bear(scene);
  }
  if (!ohmmeter_lifts_wet_leak(scene, asked))
    hold_back_for_a_wet_leak(scene.evidence, asked, leaks_when_wet, scene.findings);
}

bool leaks_only_when_wet(const Scene& scene) { return scene.findings.has_text(insulation, leaks_when_wet); }

bool leaks_undecided(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [](const Finding& f) {
    if (f.rule != insulation || f.outcome != Outcome::undecided) return false;
    if (f.text == InsulationText::not_told_apart || f.text == InsulationText::repeats_differ) return true;
    return f.measured && f.limits.lower && f.measured->value_in_si() < f.limits.lower->value_in_si();
  });
}

void advise_if_it_was_wet(const Scene& scene) {
  ohmwright::advise_if_it_was_wet(scene.evidence, asked_of(scene), say_if_it_was_wet, scene.findings);
}

void advise_on_weak_wet_test(const Scene& scene) {
  ohmwright::advise_on_weak_wet_test(scene.evidence, asked_of(scene), wet_with_more_volts, scene.findings);
}

bool may_be_destroyed_by_its_test(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(),
                     [](const Finding& f) { return f.rule == insulation && f.text == electronics_inside; });
}

}  // namespace ohmwright::fan_motor
