#include <algorithm>
#include <map>
#include <set>
#include <variant>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/job/part_proof.hpp>

namespace ohmwright::job {

namespace {

using LastReadings = std::map<std::string, const MeasuredValue*>;

/// Whether it was judged by what the part does. Its insulation has a proof of its own.
bool speaks_of_its_work(const MeasuredValue& reading) {
  if (!reading.outcome || reading.safety.empty()) return reading.outcome.has_value();
  const auto is_out = [](const SafetyFinding& finding) { return finding.outcome == Outcome::out_of_limits; };
  return *reading.outcome == Outcome::out_of_limits &&
         std::none_of(reading.safety.begin(), reading.safety.end(), is_out);
}

/// The last reading for each key. One that decides nothing takes no finding against the part away: it may have been
/// read in circuit, or at a temperature that nobody knows.
LastReadings standing_readings(const ServiceCall& call, const auto& key, const auto& counts) {
  LastReadings last = latest_of_each(call.readings, key, counts);
  for (const auto& [of, decided] : latest_of_each(call.readings, key, [&](const MeasuredValue& reading) {
         return counts(reading) && *reading.outcome != Outcome::undecided;
       }))
    if (*decided->outcome == Outcome::out_of_limits) last[of] = decided;
  return last;
}

/// The last reading of a new part at each place, of those that speak of its work.
LastReadings last_readings_of_new(const ServiceCall& call, const ReplacedPart& replaced) {
  return standing_readings(
      call, [](const MeasuredValue& reading) { return reading.place_read(); },
      [&](const MeasuredValue& reading) {
        return reading.subject() == replaced.part && !reading.happened_before(replaced) && speaks_of_its_work(reading);
      });
}

bool has(const LastReadings& last, Outcome outcome) {
  return std::any_of(last.begin(), last.end(), [outcome](const auto& place_and_reading) {
    return *place_and_reading.second->outcome == outcome;
  });
}

ProofStep step_of(ProofForm form, const ReplacedPart& work, const std::string& place) {
  return {.form = form, .part = work.part, .subject = work.title, .place = place, .mended = work.was_mended()};
}

/// A new part that reads bad is no repair, wherever it was read so last.
void add_bad_new_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, work] : call.last_work_on_each())
    for (const auto& [place, reading] : last_readings_of_new(call, *work))
      if (*reading->outcome == Outcome::out_of_limits)
        all.push_back(step_of(ProofForm::new_part_not_within, *work, place));
}

/// Whether what opens once in a part was called mended, or read good, after a reading found it open: it was bridged, or
/// that reading was a slip.
bool looks_bridged_since(const ServiceCall& call, const std::string& part, const MeasuredValue& open) {
  const auto is_of_it = [&](const std::string& of, const Told& told) {
    return of == part && open.happened_before(told);
  };
  return std::any_of(call.replaced.begin(), call.replaced.end(),
                     [&](const ReplacedPart& work) { return is_of_it(work.part, work); }) ||
         std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
           return is_of_it(reading.subject(), reading) && reading.for_good == Outcome::within_limits;
         });
}

/// What opens once and for good, and was read open: whatever is read or done since, only a new one is a repair. While
/// it only reads open no current passes it, and who looks for the cause goes on reading. A new one that opened, too, is
/// told as such.
void add_condemned_for_good(const ServiceCall& call, std::vector<ProofStep>& all) {
  std::set<std::string> condemned;
  for (const MeasuredValue& reading : call.readings)
    if (reading.condemned_for_good()) condemned.insert(reading.subject());
  for (const std::string& part : condemned) {
    const MeasuredValue* open = last_condemned_for_good(call, part);
    if (open == nullptr) continue;
    const bool is_told = std::any_of(all.begin(), all.end(), [&](const ProofStep& step) {
      return step.form == ProofForm::new_part_not_within && step.part == part;
    });
    const bool bridged = looks_bridged_since(call, part, *open);
    if (bridged || !is_told)
      all.push_back({.form = bridged ? ProofForm::condemned_for_good : ProofForm::opened_for_good,
                     .part = part,
                     .subject = open->title,
                     .place = open->place_read(),
                     .entry = open->entry});
  }
}

/// A part that nothing was done to, and that reads bad: whatever else was repaired, this is not.
void add_bad_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  const auto counts = [&](const MeasuredValue& reading) {
    return speaks_of_its_work(reading) && call.last_work_on(reading.subject()) == nullptr &&
           last_condemned_for_good(call, reading.subject()) == nullptr;  // that is told as such
  };
  for (const auto& [part, reading] : standing_readings(
           call, [](const MeasuredValue& of) { return of.subject(); }, counts))
    if (*reading->outcome == Outcome::out_of_limits)
      all.push_back({.form = ProofForm::part_not_within,
                     .part = part,
                     .subject = reading->title,
                     .place = reading->place_read(),
                     .entry = reading->entry});
}

/// Whether it was read since that work where it was named through the circuit.
bool is_read_through(const ReplacedPart& work, const MeasuredValue& reading) {
  return !work.read_through.empty() && reading.place_read() == work.read_through && !reading.happened_before(work);
}

/// Whether what was read there last was as it should be.
bool shows_it_good_through_the_circuit(const ServiceCall& call, const ReplacedPart& work) {
  const MeasuredValue* last =
      latest(call.readings, [&](const MeasuredValue& reading) { return is_read_through(work, reading); });
  return last != nullptr && last->as_it_should;
}

/// A part that was mended where it is, and of which no reading since tells what it does, by itself or, where it was
/// named so, through the circuit; read where it was read before.
void add_unread_mends(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, work] : call.last_work_on_each()) {
    if (!work->was_mended() || !last_readings_of_new(call, *work).empty()) continue;
    if (last_condemned_for_good(call, part) != nullptr) continue;  // no reading would show it good
    if (shows_it_good_through_the_circuit(call, *work)) continue;
    std::string place = work->read_through.empty() ? part : work->read_through;
    for (const MeasuredValue& reading : call.readings)
      if (reading.part == part && reading.outcome && !reading.word.empty() && speaks_of_its_work(reading))
        place = reading.place_read();
    all.push_back(step_of(ProofForm::mended_unread, *work, place));
  }
}

/// Where a part was read before it was replaced, by itself or, where it was not, through the circuit; empty: nowhere,
/// or the new one was read since. Through the circuit only a good reading stands for one of the part by itself.
std::string place_to_read_again(const ServiceCall& call, const ReplacedPart& replaced) {
  if (shows_it_good_through_the_circuit(call, replaced)) return {};
  std::string place;
  for (const MeasuredValue& reading : call.readings) {
    if (reading.part != replaced.part) continue;
    const bool is_before = reading.happened_before(replaced);
    if (!is_before && (!reading.word.empty() || speaks_of_its_work(reading))) return {};
    if (is_before && (!reading.word.empty() || speaks_of_its_work(reading))) place = reading.place_read();
  }
  if (!place.empty()) return place;
  const bool was_read = std::any_of(call.readings.begin(), call.readings.end(),
                                    [&](const MeasuredValue& reading) { return is_read_through(replaced, reading); });
  return was_read ? std::string() : replaced.read_through;
}

/// What a reading showed of a contact.
struct ContactShown {
  bool open = false;
  bool leads_touched = false;  ///< the probes were touched together first: a lost lead shows OL, too
};
ContactShown shown_of(const MeasuredValue& reading) {
  ContactShown all;
  for (const Reading& one : readings_of(reading)) {
    const bool open = shows_open(one);
    all.open = all.open || open;
    all.leads_touched = all.leads_touched || (open && one.leads.has_value());
  }
  return all;
}

/// Whether a contact was seen open after that work and not condemned: one reading leaves open whether a thermostat is
/// good, and yet shows that it is not welded. It was surely warm then, and the leads are known to be whole: it was read
/// so twice, they were touched together, or it was closed once, too. Where nobody knows how warm it was, it was closed
/// once, and open twice. What opens for good is no such contact.
bool was_seen_open(const ServiceCall& call, const ReplacedPart& work) {
  constexpr int enough = 2;
  bool was_closed = false;
  int open = 0;
  int open_where_warm = 0;
  for (const MeasuredValue& reading : call.readings) {
    if (reading.subject() != work.part || reading.happened_before(work) || !speaks_of_its_work(reading)) continue;
    if (reading.outcome == Outcome::out_of_limits || reading.for_good || readings_of(reading).empty()) continue;
    const ContactShown shown = shown_of(reading);
    was_closed = was_closed || !shown.open;
    if (!shown.open) continue;
    ++open;
    if (reading.open_where_warm) open_where_warm += shown.leads_touched ? enough : 1;
  }
  return open_where_warm >= enough || (was_closed && (open_where_warm > 0 || open >= enough));
}

/// Whether a contact was seen open so, and closed, too: whichever came first, it does its work.
bool was_seen_both_ways(const ServiceCall& call, const ReplacedPart& work) {
  return was_seen_open(call, work) &&
         std::any_of(call.readings.begin(), call.readings.end(), [&work](const MeasuredValue& reading) {
           return reading.subject() == work.part && !reading.happened_before(work) && speaks_of_its_work(reading) &&
                  reading.outcome != Outcome::out_of_limits && !readings_of(reading).empty() && !shown_of(reading).open;
         });
}

/// Whether what opens once and for good was exchanged, be it a link or that in the housing of a thermostat, also one of
/// which nobody can tell whether it or the thermostat was open.
bool went_in_for_an_overheated_one(const ServiceCall& call, const ReplacedPart& work) {
  return work.opens_for_good ||
         std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
           const bool is_suspected =
               reading.for_good == Outcome::undecided && reading.outcome == Outcome::out_of_limits;
           return reading.subject() == work.part && (reading.condemned_for_good() || is_suspected) &&
                  reading.happened_before(work);
         });
}

/// Whether what heat opens, and is not spent by it, was open before that work: read so, or pressed in or named through
/// the circuit without being read by itself.
bool had_tripped(const ServiceCall& call, const ReplacedPart& work) {
  if (!work.trips_by_heat) return false;
  const MeasuredValue* last = latest(call.readings, [&](const MeasuredValue& reading) {
    return reading.subject() == work.part && reading.happened_before(work) && !readings_of(reading).empty() &&
           speaks_of_its_work(reading);
  });
  return last == nullptr ? work.was_mended() || !work.read_through.empty() : shown_of(*last).open;
}

bool holds(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// Whether an outside cause that may overheat it was found.
bool was_found(const ServiceCall& call, const Overheating& by) {
  constexpr std::string_view found = "=found";
  return std::any_of(call.evidence.begin(), call.evidence.end(), [&](const EvidenceWord& word) {
    return word.option == "--looked" && word.word.ends_with(found) &&
           (!by.is_known || holds(by.causes, word.word.substr(0, word.word.size() - found.size())));
  });
}

/// Whether a reading, out of limits, is of a part that may have overheated it: what is open heats nothing, and moves no
/// air.
bool may_have_overheated(const MeasuredValue& reading, const Overheating& by) {
  if (by.is_known && holds(by.movers, reading.subject())) return true;
  if (by.is_known && !holds(by.parts, reading.subject())) return false;
  return readings_of(reading).empty() || !shown_of(reading).open;
}

/// Whether something says what overheated the old one, or that the new one is not overheated.
bool cause_was_found(const ServiceCall& call, const ReplacedPart& work) {
  const auto ended = [&](const Check& check) {
    return check.form == CheckForm::forced_defrost && check.outcome == Outcome::within_limits &&
           !check.happened_before(work);
  };
  const auto is_of_bad_one = [&](const ReplacedPart& other) {
    return other.part != work.part &&
           std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
             return reading.subject() == other.part && reading.outcome == Outcome::out_of_limits &&
                    reading.happened_before(other) && may_have_overheated(reading, work.overheating);
           });
  };
  return was_found(call, work.overheating) || std::any_of(call.checks.begin(), call.checks.end(), ended) ||
         std::any_of(call.replaced.begin(), call.replaced.end(), is_of_bad_one);
}

}  // namespace

std::vector<Reading> readings_of(const MeasuredValue& reading) {
  if (reading.records.empty()) return {};
  try {
    return readings_from_record(reading.records);
  } catch (const Error&) {
    return {};
  }
}

bool shows_open(const Reading& reading) {
  const auto* contact = std::get_if<ContactState>(&reading.observed);
  return std::holds_alternative<OverRange>(reading.observed) || (contact != nullptr && *contact == ContactState::open);
}

const MeasuredValue* last_condemned_for_good(const ServiceCall& call, const std::string& part) {
  const ReplacedPart* new_one = call.last_new(part);
  return latest(call.readings, [&](const MeasuredValue& reading) {
    return reading.condemned_for_good() && reading.subject() == part &&
           (new_one == nullptr || !reading.happened_before(*new_one));
  });
}

void add_part_proof(const ServiceCall& call, std::vector<ProofStep>& all) {
  add_bad_new_parts(call, all);
  add_condemned_for_good(call, all);
  add_bad_parts(call, all);
  add_unread_mends(call, all);
}

void add_open_new_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  const auto works = call.last_work_on_each();
  for (const auto& [part, work] : works) {
    const LastReadings last = last_readings_of_new(call, *work);
    if (was_seen_both_ways(call, *work)) continue;
    if (!last.empty() && !has(last, Outcome::within_limits) && !has(last, Outcome::out_of_limits))
      all.push_back(step_of(ProofForm::new_part_undecided, *work, last.begin()->first));
  }
  for (const auto& [part, work] : works) {
    if (work->was_mended() || call.has_stage_since(Stage::new_part_unread, *work)) continue;
    if (const std::string place = place_to_read_again(call, *work); !place.empty())
      all.push_back(step_of(ProofForm::new_part_unread, *work, place));
  }
}

void add_unlooked_causes(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, work] : call.last_work_on_each()) {
    const ReplacedPart* new_one = call.last_new(part);
    if (new_one != nullptr && went_in_for_an_overheated_one(call, *new_one) && !cause_was_found(call, *new_one))
      all.push_back({.form = ProofForm::cause_unlooked_for, .part = part, .subject = new_one->title});
    else if (had_tripped(call, *work) && !cause_was_found(call, *work))
      all.push_back({.form = ProofForm::trip_unlooked_for, .part = part, .subject = work->title});
  }
}

void add_unread_new_parts(const ServiceCall& call, std::vector<ProofStep>& all) {
  for (const auto& [part, work] : call.last_work_on_each()) {
    const bool is_told = std::any_of(all.begin(), all.end(), [id = &part](const ProofStep& step) {
      return step.part == *id && step.leaves_part_unproved();
    });
    if (is_told || has(last_readings_of_new(call, *work), Outcome::within_limits) || was_seen_open(call, *work))
      continue;
    const std::string place = place_to_read_again(call, *work);
    all.push_back(step_of(ProofForm::limit_unread, *work, place.empty() ? part : place));
  }
}

}  // namespace ohmwright::job
