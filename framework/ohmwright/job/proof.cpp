#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include <ohmwright/job/proof.hpp>

namespace ohmwright::job {

namespace {

/// The part that was judged, or the kind that was judged alone.
const std::string& subject_read(const MeasuredValue& reading) {
  return reading.part.empty() ? reading.kind : reading.part;
}

/// What a finding is about: the part, the kind that was judged alone, or of a leak the place of the probes.
std::string subject_of(const MeasuredValue& reading, const SafetyFinding& finding) {
  return finding.rule == leak_rule ? reading.place_read() : subject_read(reading);
}

struct SubjectAndRule {
  std::string subject;
  std::string rule;
  auto operator<=>(const SubjectAndRule&) const = default;
};

struct LastFinding {
  Outcome outcome = Outcome::undecided;
  const MeasuredValue* reading = nullptr;
};

/// The last finding of each rule about each subject. Of one reading the worst counts.
std::map<SubjectAndRule, LastFinding> last_findings(const ServiceCall& call) {
  std::map<SubjectAndRule, LastFinding> last;
  for (const MeasuredValue& reading : call.readings)
    for (const SafetyFinding& finding : reading.safety) {
      LastFinding& known = last[{subject_of(reading, finding), finding.rule}];
      const bool worse = known.reading == &reading && finding.outcome != Outcome::within_limits;
      if (known.reading == nullptr || worse || (known.reading != &reading && known.reading->happened_before(reading)))
        known = {finding.outcome, &reading};
    }
  return last;
}

template <class Row>
const Row* latest(const std::vector<Row>& rows, const auto& counts) {
  const Row* last = nullptr;
  for (const Row& row : rows)
    if (counts(row) && (last == nullptr || last->happened_before(row))) last = &row;
  return last;
}

const ReplacedPart* last_repair(const ServiceCall& call) {
  return latest(call.replaced, [](const ReplacedPart&) { return true; });
}

const Told* later(const Told* a, const Told* b) {
  if (a == nullptr || b == nullptr) return a == nullptr ? b : a;
  return a->happened_before(*b) ? b : a;
}

/// The last time that somebody felt, smelt or read that its frame may become live; null: never. A cabinet that tingles
/// asks for the earth bond, too.
struct Suspicion {
  const Told* any = nullptr;
  const Told* of_the_bond = nullptr;
};

Suspicion suspicion(const ServiceCall& call) {
  constexpr std::array<std::string_view, 3> signs_of_shock{"shock-from-cabinet", "trips-breaker",
                                                           "trips-residual-current-device"};
  Suspicion found;
  for (const char* question : {"tingles", "burning_smell"}) {
    const auto answer = call.phone.find(question);
    const auto when = call.answered.find(question);
    if (answer != call.phone.end() && answer->second == "yes" && when != call.answered.end())
      found.of_the_bond = later(found.of_the_bond, &when->second);
  }
  for (const EvidenceWord& word : call.evidence)
    if (word.option == "--symptom" &&
        std::find(signs_of_shock.begin(), signs_of_shock.end(), word.word) != signs_of_shock.end())
      found.of_the_bond = later(found.of_the_bond, &word);
  found.any = found.of_the_bond;
  for (const MeasuredValue& reading : call.readings)
    for (const SafetyFinding& finding : reading.safety)
      if (finding.rule == leak_rule && finding.outcome == Outcome::out_of_limits)
        found.any = later(found.any, &reading);
  return found;
}

/// The last replacement of each part that must be proved safe to energise.
std::map<std::string, const ReplacedPart*> last_replacements(const ServiceCall& call) {
  std::map<std::string, const ReplacedPart*> last;
  for (const ReplacedPart& part : call.replaced) {
    const ReplacedPart*& known = last[part.part];
    if (known == nullptr || known->happened_before(part)) known = &part;
  }
  return last;
}

void add_findings(const ServiceCall& call, std::vector<ProofStep>& all) {
  const std::map<std::string, const ReplacedPart*> replaced = last_replacements(call);
  for (const auto& [of, finding] : last_findings(call)) {
    if (of.rule == leak_rule) {
      if (finding.outcome == Outcome::out_of_limits)
        all.push_back({ProofStep::Form::leak_to_earth, of.subject, finding.reading->point});
      continue;
    }
    const auto since = replaced.find(of.subject);
    if (since != replaced.end() && finding.reading->happened_before(*since->second)) continue;  // the old part's
    if (finding.outcome != Outcome::within_limits)
      all.push_back({finding.outcome == Outcome::out_of_limits ? ProofStep::Form::insulation_not_within
                                                               : ProofStep::Form::insulation_undecided,
                     of.subject, finding.reading->title});
  }
}

/// Whether it read an insulation, of that part (null: of any), and, if asked, found it within limits.
bool reads_insulation(const MeasuredValue& reading, const std::string* part, bool within) {
  return std::any_of(reading.safety.begin(), reading.safety.end(), [&](const SafetyFinding& finding) {
    return finding.rule != leak_rule && (part == nullptr || subject_of(reading, finding) == *part) &&
           (!within || finding.outcome == Outcome::within_limits);
  });
}

bool insulation_read_since(const ServiceCall& call, const Told& since, const std::string* part, bool within) {
  return std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
    return !reading.happened_before(since) && reads_insulation(reading, part, within);
  });
}

void add_unread_insulation(const ServiceCall& call, const Suspicion& suspected, std::vector<ProofStep>& all) {
  for (const auto& [part, replaced] : last_replacements(call))
    if (replaced->tells_insulation && !insulation_read_since(call, *replaced, &part, false))
      all.push_back({.form = ProofStep::Form::insulation_unread,
                     .part = part,
                     .subject = replaced->title,
                     .mended = replaced->was_mended()});
  for (const auto& [part, replaced] : last_replacements(call))
    if (replaced->asks_circuit_insulation && !insulation_read_since(call, *replaced, nullptr, false)) {
      all.push_back({.form = ProofStep::Form::circuit_insulation_unread,
                     .part = part,
                     .subject = replaced->title,
                     .mended = replaced->was_mended()});
      break;  // one reading proves it for all
    }
  if (suspected.any != nullptr && !insulation_read_since(call, *suspected.any, nullptr, true))
    all.push_back({ProofStep::Form::no_insulation_read});
}

void add_earth_bond(const ServiceCall& call, const Suspicion& suspected, std::vector<ProofStep>& all) {
  const Check* bond = latest(call.checks, [](const Check& check) { return check.form == CheckForm::earth_bond; });
  const Told* since = suspected.of_the_bond;
  const ReplacedPart* last = latest(call.replaced, [](const ReplacedPart& part) { return part.has_earth; });
  if (last != nullptr) since = later(since, last);
  if (since != nullptr && (bond == nullptr || bond->happened_before(*since)))
    all.push_back({.form = ProofStep::Form::earth_bond_unread, .mended = since == last && last->was_mended()});
  else if (bond != nullptr && bond->outcome != Outcome::within_limits)
    all.push_back({bond->outcome == Outcome::out_of_limits ? ProofStep::Form::earth_bond_not_within
                                                           : ProofStep::Form::earth_bond_undecided});
}

/// Whether it was judged by what the part does. Its insulation has a proof of its own.
bool speaks_of_its_work(const MeasuredValue& reading) {
  if (!reading.outcome || reading.safety.empty()) return reading.outcome.has_value();
  const auto is_out = [](const SafetyFinding& finding) { return finding.outcome == Outcome::out_of_limits; };
  return *reading.outcome == Outcome::out_of_limits &&
         std::none_of(reading.safety.begin(), reading.safety.end(), is_out);
}

/// The last reading of a new part at each place, of those that speak of its work.
std::map<std::string, const MeasuredValue*> last_readings_of_new(const ServiceCall& call,
                                                                 const ReplacedPart& replaced) {
  std::map<std::string, const MeasuredValue*> last;
  for (const MeasuredValue& reading : call.readings) {
    if (subject_read(reading) != replaced.part || reading.happened_before(replaced) || !speaks_of_its_work(reading))
      continue;
    const MeasuredValue*& known = last[reading.place_read()];
    if (known == nullptr || known->happened_before(reading)) known = &reading;
  }
  return last;
}

/// Whether what opens once in a part was called mended, or read good, after a reading found it open: it was bridged, or
/// that reading was a slip.
bool looks_bridged_since(const ServiceCall& call, const std::string& part, const MeasuredValue& open) {
  return std::any_of(call.replaced.begin(), call.replaced.end(),
                     [&](const ReplacedPart& work) { return work.part == part && open.happened_before(work); }) ||
         std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
           return subject_read(reading) == part && open.happened_before(reading) &&
                  reading.for_good == Outcome::within_limits;
         });
}

/// What opens once and for good, and was read open: whatever is read or done since, only a new one is a repair. While
/// it only reads open no current passes it, and who looks for the cause goes on reading. A new one that opened, too, is
/// told as such.
void add_condemned_for_good(const ServiceCall& call, std::vector<ProofStep>& all) {
  std::set<std::string> condemned;
  for (const MeasuredValue& reading : call.readings)
    if (reading.condemned_for_good()) condemned.insert(subject_read(reading));
  for (const std::string& part : condemned) {
    const MeasuredValue* open = last_condemned_for_good(call, part);
    if (open == nullptr) continue;
    const bool is_told = std::any_of(all.begin(), all.end(), [&](const ProofStep& step) {
      return step.form == ProofStep::Form::new_part_not_within && step.part == part;
    });
    const bool bridged = looks_bridged_since(call, part, *open);
    if (bridged || !is_told)
      all.push_back({.form = bridged ? ProofStep::Form::condemned_for_good : ProofStep::Form::opened_for_good,
                     .part = part,
                     .subject = open->title,
                     .place = open->place_read(),
                     .entry = open->entry});
  }
}

/// A new part that reads bad is no repair, wherever it was read so last.
void add_bad_new_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, replaced] : last_replacements(call))
    for (const auto& [place, reading] : last_readings_of_new(call, *replaced))
      if (*reading->outcome == Outcome::out_of_limits)
        all.push_back({.form = ProofStep::Form::new_part_not_within,
                       .part = part,
                       .subject = replaced->title,
                       .place = place,
                       .mended = replaced->was_mended()});
}

/// A new part whose readings left open whether it is good: none of the last found it so, and none found it bad.
void add_undecided_new_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, replaced] : last_replacements(call)) {
    const auto last = last_readings_of_new(call, *replaced);
    const bool is_open = std::all_of(last.begin(), last.end(), [](const auto& place_and_reading) {
      return *place_and_reading.second->outcome == Outcome::undecided;
    });
    if (is_open && !last.empty())
      all.push_back({.form = ProofStep::Form::new_part_undecided,
                     .part = part,
                     .subject = replaced->title,
                     .place = last.begin()->first,
                     .mended = replaced->was_mended()});
  }
}

/// A part that nothing was done to, and that reads bad: whatever else was repaired, this is not.
void add_bad_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  const std::map<std::string, const ReplacedPart*> replaced = last_replacements(call);
  std::map<std::string, const MeasuredValue*> last;
  for (const MeasuredValue& reading : call.readings) {
    const std::string& part = subject_read(reading);
    if (replaced.count(part) != 0 || !speaks_of_its_work(reading)) continue;
    if (last_condemned_for_good(call, part) != nullptr) continue;  // told as such
    const MeasuredValue*& known = last[part];
    if (known == nullptr || known->happened_before(reading)) known = &reading;
  }
  for (const auto& [part, reading] : last)
    if (*reading->outcome == Outcome::out_of_limits)
      all.push_back({ProofStep::Form::part_not_within, part, reading->title, reading->place_read()});
}

/// A part that was mended where it is, and of which no reading since tells what it does; read where it was read before.
void add_unread_mends(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, replaced] : last_replacements(call)) {
    if (!replaced->was_mended() || !last_readings_of_new(call, *replaced).empty()) continue;
    if (last_condemned_for_good(call, part) != nullptr) continue;  // no reading would show it good
    std::string place = part;
    for (const MeasuredValue& reading : call.readings)
      if (reading.part == part && reading.outcome && !reading.word.empty() && speaks_of_its_work(reading))
        place = reading.place_read();
    all.push_back({.form = ProofStep::Form::mended_unread,
                   .part = part,
                   .subject = replaced->title,
                   .place = place,
                   .mended = true});
  }
}

bool is_read_good(const std::map<std::string, const MeasuredValue*>& last_readings) {
  return std::any_of(last_readings.begin(), last_readings.end(), [](const auto& place_and_reading) {
    return *place_and_reading.second->outcome == Outcome::within_limits;
  });
}

/// Where a part was read before it was replaced; empty: nowhere, or the new one was read since.
std::string place_to_read_again(const ServiceCall& call, const ReplacedPart& replaced) {
  std::string place;
  for (const MeasuredValue& reading : call.readings) {
    if (reading.part != replaced.part || reading.word.empty()) continue;
    if (!reading.happened_before(replaced)) return {};
    place = reading.place_read();
  }
  return call.has_stage_since(Stage::new_part_unread, replaced) ? std::string() : place;
}

/// The last time that a check failed so since it passed last; null: none. What decides nothing takes no failure away.
const Check* standing_failure(const ServiceCall& call, CheckForm form, const auto& so) {
  const Check* failed = latest(call.checks, [&](const Check& check) {
    return check.form == form && check.outcome == Outcome::out_of_limits && so(check);
  });
  const Check* passed = latest(call.checks, [form](const Check& check) {
    return check.form == form && check.outcome == Outcome::within_limits;
  });
  return failed == nullptr || (passed != nullptr && failed->happened_before(*passed)) ? nullptr : failed;
}

/// What a check that failed bars until the same check passes. After a repair it may be tried again, whatever was
/// repaired; that it was repaired is shown by nothing else.
void add_failed_checks(const ServiceCall& call, std::vector<ProofStep>& all) {
  using Form = ProofStep::Form;
  const ReplacedPart* repair = last_repair(call);
  const auto add = [&](const Check* failed, Form now, Form since_repair) {
    if (failed == nullptr) return;
    const bool was_repaired = repair != nullptr && !repair->happened_before(*failed);
    all.push_back({.form = was_repaired ? since_repair : now, .entry = failed->entry});
  };
  const auto did_not_end = [](const Check& check) { return check.result == heat_without_end; };
  add(standing_failure(call, CheckForm::forced_defrost, did_not_end), Form::heat_did_not_end, Form::heat_end_unproved);
  add(standing_failure(call, CheckForm::forced_defrost, [&](const Check& check) { return !did_not_end(check); }),
      Form::heat_did_not_come, Form::heat_unproved);
  add(standing_failure(call, CheckForm::log, [](const Check&) { return true; }), Form::log_shows_fault,
      Form::log_unproved);
}

/// A check that nobody made since the last repair, or that decided nothing. One that failed stands as such.
void add_check(const ServiceCall& call, CheckForm wanted, ProofStep::Form form, std::vector<ProofStep>& all) {
  if (standing_failure(call, wanted, [](const Check&) { return true; }) != nullptr) return;
  const Check* last = last_check(call, wanted);
  if (last == nullptr || last->outcome == Outcome::undecided) all.push_back({.form = form});
}

}  // namespace

const Check* last_check(const ServiceCall& call, CheckForm form) {
  const ReplacedPart* since = last_repair(call);
  return latest(call.checks, [&](const Check& check) {
    return check.form == form && (since == nullptr || !check.happened_before(*since));
  });
}

const MeasuredValue* last_condemned_for_good(const ServiceCall& call, const std::string& part) {
  const ReplacedPart* new_one = latest(
      call.replaced, [&](const ReplacedPart& replaced) { return replaced.part == part && !replaced.was_mended(); });
  return latest(call.readings, [&](const MeasuredValue& reading) {
    return reading.condemned_for_good() && subject_read(reading) == part &&
           (new_one == nullptr || !reading.happened_before(*new_one));
  });
}

std::vector<ProofStep> open_proof(const ServiceCall& call) {
  std::vector<ProofStep> all;
  const Suspicion suspected = suspicion(call);
  add_findings(call, all);
  add_unread_insulation(call, suspected, all);
  add_earth_bond(call, suspected, all);
  add_bad_new_parts(call, all);
  add_condemned_for_good(call, all);
  add_bad_parts(call, all);
  add_unread_mends(call, all);
  add_failed_checks(call, all);
  add_undecided_new_parts(call, all);
  for (const auto& [part, replaced] : last_replacements(call))
    if (const std::string place = place_to_read_again(call, *replaced); !place.empty() && !replaced->was_mended())
      all.push_back({ProofStep::Form::new_part_unread, part, replaced->title, place});
  std::stable_partition(all.begin(), all.end(), [](const ProofStep& step) { return step.bars_energising(); });
  if (!call.cools()) return all;
  add_check(call, CheckForm::forced_defrost, ProofStep::Form::forced_defrost, all);
  add_check(call, CheckForm::log, ProofStep::Form::log, all);
  return all;
}

std::vector<ProofStep> bars_to_energising(const ServiceCall& call) {
  std::vector<ProofStep> bars = open_proof(call);
  std::erase_if(bars, [](const ProofStep& step) { return !step.bars_energising(); });
  return bars;
}

std::vector<ProofStep> bars_to_heating(const ServiceCall& call,
                                       const std::function<bool(const std::string& part)>& limits_heat) {
  std::vector<ProofStep> bars = open_proof(call);
  std::erase_if(bars, [&](const ProofStep& step) { return !step.leaves_part_unproved() || !limits_heat(step.part); });
  for (const auto& [part, replaced] : last_replacements(call)) {
    const bool is_told =
        std::any_of(bars.begin(), bars.end(), [part = &part](const ProofStep& bar) { return bar.part == *part; });
    if (is_told || !limits_heat(part) || is_read_good(last_readings_of_new(call, *replaced))) continue;
    const std::string place = place_to_read_again(call, *replaced);
    bars.push_back({.form = ProofStep::Form::limit_unread,
                    .part = part,
                    .subject = replaced->title,
                    .place = place.empty() ? part : place});
  }
  return bars;
}

std::vector<ProofStep> bars_to_closing(const ServiceCall& call, const SafetyAsked& asked) {
  std::vector<ProofStep> bars = open_proof(call);
  std::erase_if(bars, [](const ProofStep& step) { return !step.bars_closing(); });
  const auto of_this_visit = [&call](const Told& told) { return told.visit == call.visits; };
  if (std::any_of(call.replaced.begin(), call.replaced.end(), of_this_visit) ||
      std::none_of(call.readings.begin(), call.readings.end(), of_this_visit))
    return bars;
  const auto bars_already = [&](ProofStep::Form form) {
    return std::any_of(bars.begin(), bars.end(), [form](const ProofStep& step) { return step.form == form; });
  };
  const bool has_insulation = std::any_of(
      call.readings.begin(), call.readings.end(),
      [&](const MeasuredValue& reading) { return of_this_visit(reading) && reads_insulation(reading, nullptr, true); });
  if (asked.insulation && !has_insulation && !bars_already(ProofStep::Form::no_insulation_read))
    bars.push_back({ProofStep::Form::insulation_unproved});
  const bool has_bond = std::any_of(call.checks.begin(), call.checks.end(), [&](const Check& check) {
    return of_this_visit(check) && check.form == CheckForm::earth_bond;
  });
  if (asked.earth_bond && !has_bond && !bars_already(ProofStep::Form::earth_bond_unread))
    bars.push_back({ProofStep::Form::earth_bond_unproved});
  return bars;
}

}  // namespace ohmwright::job
