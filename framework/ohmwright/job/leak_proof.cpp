#include <algorithm>
#include <limits>
#include <set>
#include <string>
#include <variant>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/job/leak_proof.hpp>
#include <ohmwright/job/part_proof.hpp>

namespace ohmwright::job {

namespace {

bool has_finding(const MeasuredValue& reading, Outcome outcome) {
  return std::any_of(reading.safety.begin(), reading.safety.end(), [outcome](const SafetyFinding& finding) {
    return finding.rule != leak_rule && !finding.low_voltage && finding.outcome == outcome;
  });
}

bool is_of_insulation(const MeasuredValue& reading) {
  return std::any_of(reading.safety.begin(), reading.safety.end(),
                     [](const SafetyFinding& finding) { return finding.rule != leak_rule && !finding.low_voltage; });
}

bool was_wet(const MeasuredValue& reading) {
  const std::vector<Reading> read = readings_of(reading);
  return std::any_of(read.begin(), read.end(), [](const Reading& one) { return one.moisture == Moisture::wet; });
}

bool was_in_circuit(const MeasuredValue& reading) {
  const std::vector<Reading> read = readings_of(reading);
  return std::any_of(read.begin(), read.end(),
                     [](const Reading& one) { return one.connection == Connection::in_circuit; });
}

/// The least insulation that was read, where a value was; infinite past a range.
double least_ohms(const MeasuredValue& reading) {
  double least = std::numeric_limits<double>::infinity();
  for (const Reading& one : readings_of(reading)) {
    const auto* value = std::get_if<StatedValue>(&one.observed);
    if (value != nullptr && (one.measurand.starts_with("insulation") || states_test_voltage(one)))
      least = std::min(least, value->value.value_in_si());
  }
  return least;
}

/// Whether it found less than any part of class I may have, whether or not a rule condemns it: read wet it may be the
/// water alone, and with its leads on what lies beside it.
bool found_a_leak(const MeasuredValue& reading) {
  return is_of_insulation(reading) && (has_finding(reading, Outcome::out_of_limits) ||
                                       least_ohms(reading) < least_insulation(EarthClass::one).value());
}

/// Whether it found the part leaking by itself.
bool found_it_leaking(const MeasuredValue& reading) { return found_a_leak(reading) && !was_in_circuit(reading); }

/// Whether it found no leak, though its kind may hold an earlier one against it.
bool found_none(const MeasuredValue& reading) {
  return has_finding(reading, Outcome::within_limits) || (!reading.beside.empty() && !found_a_leak(reading));
}

/// Whether a leak of the part still counts after what was done to it: a new part has none of the old one's, and who
/// mended what leaked wet has not shown by a dry reading that water is kept out.
bool counts_after_work(const ServiceCall& call, const MeasuredValue& leak) {
  const ReplacedPart* work = call.last_work_on(leak.subject());
  if (work == nullptr || work->happened_before(leak)) return true;
  const ReplacedPart* new_one = call.last_new(leak.subject());
  return work->was_mended() && was_wet(leak) && (new_one == nullptr || new_one->happened_before(leak));
}

void add_leak_of_part(const ServiceCall& call, const std::string& part, std::vector<ProofStep>& all) {
  const auto is_of_it = [&part](const MeasuredValue& reading) {
    return reading.subject() == part && is_of_insulation(reading);
  };
  const MeasuredValue* leak = latest(call.readings, [&](const MeasuredValue& reading) {
    return is_of_it(reading) && found_it_leaking(reading) && counts_after_work(call, reading);
  });
  const MeasuredValue* last = latest(call.readings, is_of_it);
  if (leak == nullptr || last == leak || !found_none(*last)) return;  // else it is told as bad
  std::erase_if(all, [&part](const ProofStep& step) {
    return step.part == part && step.form == ProofForm::insulation_undecided;  // which has no way out
  });
  if (std::any_of(all.begin(), all.end(), [&part](const ProofStep& step) {
        return step.part == part && step.bars_energising() && step.form != ProofForm::leak_to_earth;
      }))
    return;  // another rule speaks against it
  const ReplacedPart* work = call.last_work_on(part);
  const bool is_shown_wet = std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
    return is_of_it(reading) && leak->happened_before(reading) && was_wet(reading) &&
           (work == nullptr || !reading.happened_before(*work)) && has_finding(reading, Outcome::within_limits);
  });
  if (is_shown_wet) return;
  all.push_back({.form = ProofForm::leak_unexplained,
                 .part = part,
                 .subject = leak->title,
                 .mended = work != nullptr && leak->happened_before(*work),
                 .entry = leak->entry});
}

/// With its leads on it leaked, and alone it does not: the leak lies beside it.
void add_leak_beside_part(const ServiceCall& call, const std::string& part, std::vector<ProofStep>& all) {
  const auto is_in_circuit = [&part](const MeasuredValue& reading) {
    return reading.subject() == part && is_of_insulation(reading) && was_in_circuit(reading);
  };
  const MeasuredValue* leak = latest(call.readings, is_in_circuit);  // a good one later, its leads on, clears it
  if (leak == nullptr || !found_a_leak(*leak)) return;
  if (const ReplacedPart* work = call.last_work(); work != nullptr && leak->happened_before(*work)) return;
  const bool is_good_alone = std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
    return reading.subject() == part && leak->happened_before(reading) && !was_in_circuit(reading) &&
           has_finding(reading, Outcome::within_limits);
  });
  if (is_good_alone)
    all.push_back({.form = ProofForm::leak_beside, .part = part, .subject = leak->title, .entry = leak->entry});
}

void add_leak_at_test_point(const ServiceCall& call, const std::string& place, std::vector<ProofStep>& all) {
  const auto says = [&place](const MeasuredValue& reading, bool leaks) {
    return reading.place_read() == place &&
           std::any_of(reading.safety.begin(), reading.safety.end(), [leaks](const SafetyFinding& finding) {
             return finding.rule == leak_rule && (finding.outcome == Outcome::out_of_limits) == leaks;
           });
  };
  const MeasuredValue* leak = latest(call.readings, [&](const MeasuredValue& reading) { return says(reading, true); });
  const MeasuredValue* none = latest(call.readings, [&](const MeasuredValue& reading) { return says(reading, false); });
  if (leak == nullptr || none == nullptr || none->happened_before(*leak)) return;
  if (const ReplacedPart* work = call.last_work(); work != nullptr && leak->happened_before(*work)) return;
  if (std::any_of(call.readings.begin(), call.readings.end(), [leak](const MeasuredValue& reading) {
        return leak->happened_before(reading) && was_wet(reading) && has_finding(reading, Outcome::within_limits);
      }))
    return;  // wetted, what is there insulates
  all.push_back({.form = ProofForm::leak_fell_away, .part = place, .subject = leak->point, .entry = leak->entry});
}

}  // namespace

void add_leaks_left(const ServiceCall& call, std::vector<ProofStep>& all) {
  std::set<std::string> parts;
  std::set<std::string> places;
  for (const MeasuredValue& reading : call.readings) {
    if (found_a_leak(reading)) parts.insert(reading.subject());
    if (std::any_of(reading.safety.begin(), reading.safety.end(),
                    [](const SafetyFinding& finding) { return finding.rule == leak_rule; }))
      places.insert(reading.place_read());
  }
  for (const std::string& part : parts) {
    add_leak_of_part(call, part, all);
    add_leak_beside_part(call, part, all);
  }
  for (const std::string& place : places) add_leak_at_test_point(call, place, all);
}

}  // namespace ohmwright::job
