#include <algorithm>
#include <array>
#include <map>
#include <string>

#include <ohmwright/job/safety_proof.hpp>

namespace ohmwright::job {

namespace {

/// What a finding is about: the part, the kind that was judged alone, or of a leak the place of the probes.
std::string subject_of(const MeasuredValue& reading, const SafetyFinding& finding) {
  return finding.rule == leak_rule ? reading.place_read() : reading.subject();
}

struct SubjectAndRule {
  std::string subject;
  std::string rule;
  auto operator<=>(const SubjectAndRule&) const = default;
};

struct LastFinding {
  Outcome outcome = Outcome::undecided;
  const MeasuredValue* reading = nullptr;
  const SafetyFinding* finding = nullptr;
};

/// What a finding says in an appliance with a protective earth, or without one.
Outcome outcome_of(const SafetyFinding& finding, bool has_earth) {
  return has_earth ? finding.outcome : finding.without_earth.value_or(finding.outcome);
}

/// Of one reading the worst counts: out of limits, else what nobody could tell.
int severity(Outcome outcome) {
  if (outcome == Outcome::out_of_limits) return 2;
  return outcome == Outcome::within_limits ? 0 : 1;
}

/// The last finding of each rule about each subject.
std::map<SubjectAndRule, LastFinding> last_findings(const ServiceCall& call, bool has_earth) {
  std::map<SubjectAndRule, LastFinding> last;
  for (const MeasuredValue& reading : call.readings)
    for (const SafetyFinding& finding : reading.safety) {
      LastFinding& known = last[{subject_of(reading, finding), finding.rule}];
      const Outcome outcome = outcome_of(finding, has_earth);
      const bool worse = known.reading == &reading && severity(outcome) > severity(known.outcome);
      if (known.reading == nullptr || worse || (known.reading != &reading && known.reading->happened_before(reading)))
        known = {outcome, &reading, &finding};
    }
  return last;
}

/// Whether it has a protective earth, so that its insulation may be that of class I: as was said last, else as its
/// file says it, which is kept with what was read and replaced.
bool has_protective_earth(const ServiceCall& call) {
  const Check* bond = latest(call.checks, [](const Check& check) { return check.form == CheckForm::earth_bond; });
  if (bond != nullptr) return bond->result != no_earth;
  const bool lacks_earth = std::any_of(call.readings.begin(), call.readings.end(),
                                       [](const MeasuredValue& reading) { return reading.lacks_earth; });
  return !lacks_earth && (call.replaced.empty() || call.last_work()->has_earth);
}

/// What stands against a part whose insulation was read last so.
ProofForm form_of(const LastFinding& last) {
  if (last.outcome == Outcome::undecided && last.finding->outcome != Outcome::within_limits)
    return ProofForm::insulation_undecided;
  return last.finding->outcome == Outcome::within_limits ? ProofForm::insulation_below_class_two
                                                         : ProofForm::insulation_not_within;
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

void add_findings(const ServiceCall& call, std::vector<ProofStep>& all) {
  const std::map<std::string, const ReplacedPart*> replaced = call.last_work_on_each();
  for (const auto& [of, finding] : last_findings(call, has_protective_earth(call))) {
    if (of.rule == leak_rule) {
      if (finding.outcome == Outcome::out_of_limits)
        all.push_back({ProofForm::leak_to_earth, of.subject, finding.reading->point});
      continue;
    }
    const auto since = replaced.find(of.subject);
    if (since != replaced.end() && finding.reading->happened_before(*since->second)) continue;  // the old part's
    if (finding.outcome != Outcome::within_limits)
      all.push_back({form_of(finding), of.subject, finding.reading->title});
  }
}

/// Whether it read an insulation, of that part (null: of any that lies at the mains), and, if asked, found it within
/// limits.
bool reads_insulation(const MeasuredValue& reading, const std::string* part, bool within) {
  return std::any_of(reading.safety.begin(), reading.safety.end(), [&](const SafetyFinding& finding) {
    return finding.rule != leak_rule &&
           (part == nullptr ? !finding.low_voltage : subject_of(reading, finding) == *part) &&
           (!within || finding.outcome == Outcome::within_limits);
  });
}

bool insulation_read_since(const ServiceCall& call, const Told& since, const std::string* part, bool within) {
  return std::any_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& reading) {
    return !reading.happened_before(since) && reads_insulation(reading, part, within);
  });
}

void add_unread_insulation(const ServiceCall& call, const Suspicion& suspected, std::vector<ProofStep>& all) {
  for (const auto& [part, replaced] : call.last_work_on_each())
    if (replaced->tells_insulation && !insulation_read_since(call, *replaced, &part, false))
      all.push_back({.form = replaced->bears_test_volts ? ProofForm::insulation_unread : ProofForm::electronics_unread,
                     .part = part,
                     .subject = replaced->title,
                     .mended = replaced->was_mended()});
  for (const auto& [part, replaced] : call.last_work_on_each())
    if (replaced->asks_circuit_insulation && !insulation_read_since(call, *replaced, nullptr, false)) {
      all.push_back({.form = ProofForm::circuit_insulation_unread,
                     .part = part,
                     .subject = replaced->title,
                     .mended = replaced->was_mended()});
      break;  // one reading proves it for all
    }
  if (suspected.any != nullptr && !insulation_read_since(call, *suspected.any, nullptr, true))
    all.push_back({ProofForm::no_insulation_read});
}

void add_earth_bond(const ServiceCall& call, const Suspicion& suspected, std::vector<ProofStep>& all) {
  const Check* bond = latest(call.checks, [](const Check& check) { return check.form == CheckForm::earth_bond; });
  const Told* since = suspected.of_the_bond;
  const ReplacedPart* last = latest(call.replaced, [](const ReplacedPart& part) { return part.has_earth; });
  if (last != nullptr) since = later(since, last);
  if (since != nullptr && (bond == nullptr || bond->happened_before(*since)))
    all.push_back({.form = ProofForm::earth_bond_unread, .mended = since == last && last->was_mended()});
  else if (bond != nullptr && bond->outcome != Outcome::within_limits)
    all.push_back(
        {bond->outcome == Outcome::out_of_limits ? ProofForm::earth_bond_not_within : ProofForm::earth_bond_undecided});
}

}  // namespace

bool reads_good_insulation(const MeasuredValue& reading) { return reads_insulation(reading, nullptr, true); }

void add_safety_proof(const ServiceCall& call, std::vector<ProofStep>& all) {
  const Suspicion suspected = suspicion(call);
  add_findings(call, all);
  add_unread_insulation(call, suspected, all);
  add_earth_bond(call, suspected, all);
}

}  // namespace ohmwright::job
