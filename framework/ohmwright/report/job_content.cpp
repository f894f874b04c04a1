#include <algorithm>
#include <initializer_list>
#include <utility>
#include <variant>
#include <vector>

#include <ohmwright/job/check_proof.hpp>
#include <ohmwright/job/part_proof.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>

namespace ohmwright {

namespace {

using job::Check;
using job::MeasuredValue;
using job::ReplacedPart;
using job::ServiceCall;

std::string outcome_words(const std::optional<Outcome>& outcome, const Sentences& say) {
  if (!outcome) return say(OHMWRIGHT_TEXT("with the others"));
  switch (*outcome) {
    case Outcome::within_limits:
      return say(OHMWRIGHT_TEXT("IN SPEC"));
    case Outcome::out_of_limits:
      return say(OHMWRIGHT_TEXT("OUT OF SPEC"));
    default:
      return say(OHMWRIGHT_TEXT("CAN'T TELL YET"));
  }
}

/// What was last done to the part before it was read so; null: nothing.
const ReplacedPart* work_before(const ServiceCall& call, const MeasuredValue& reading) {
  return job::latest(call.replaced, [&](const ReplacedPart& work) {
    return work.part == reading.part && work.happened_before(reading);
  });
}

/// Whether what was read is the part that went in, or that was mended.
bool replaced_before(const ServiceCall& call, const MeasuredValue& reading) {
  return work_before(call, reading) != nullptr;
}

/// Whether it is of the part that is in it now, and not of one that went out since, or was mended.
bool is_of_part_in_place(const ServiceCall& call, const MeasuredValue& reading) {
  return work_before(call, reading) == call.last_work_on(reading.subject());
}

bool decides_something(const MeasuredValue& reading) {
  return reading.outcome && *reading.outcome != Outcome::undecided;
}
bool is_of_insulation(const MeasuredValue& reading) {
  return std::any_of(reading.safety.begin(), reading.safety.end(),
                     [](const job::SafetyFinding& finding) { return finding.rule != job::leak_rule; });
}

/// Whether nothing was read of the part later that counts for as much, wherever the probes were: of its insulation, or
/// of what it does.
bool is_last_of_part(const ServiceCall& call, const MeasuredValue& reading, const auto& counts) {
  return std::none_of(call.readings.begin(), call.readings.end(), [&](const MeasuredValue& other) {
    return other.subject() == reading.subject() && is_of_insulation(other) == is_of_insulation(reading) &&
           reading.happened_before(other) && counts(other);
  });
}

/// Whether a proof that is open says that the part is not good, or not known to be.
bool is_spoken_against(const std::vector<job::ProofStep>& open, const MeasuredValue& reading) {
  return std::any_of(open.begin(), open.end(), [&reading](const job::ProofStep& step) {
    return step.part == reading.subject() && step.leaves_part_unproved();
  });
}

/// The same of its insulation, which a leak anywhere speaks against.
bool insulation_is_spoken_against(const std::vector<job::ProofStep>& open, const MeasuredValue& reading) {
  using Form = job::ProofStep::Form;
  return std::any_of(open.begin(), open.end(), [&reading](const job::ProofStep& step) {
    const bool is_of_insulation = step.form == Form::insulation_not_within ||
                                  step.form == Form::insulation_below_class_two ||
                                  step.form == Form::insulation_undecided || step.form == Form::leak_unexplained;
    return step.form == Form::leak_to_earth || step.form == Form::leak_fell_away || step.form == Form::leak_beside ||
           (is_of_insulation && step.part == reading.subject());
  });
}

/// Whether an insulation tester found it safe to energise, and nothing found it unsafe.
bool is_good_insulation(const MeasuredValue& reading) {
  bool good = false;
  for (const job::SafetyFinding& finding : reading.safety) {
    if (finding.rule == job::leak_rule) continue;
    if (finding.outcome != Outcome::within_limits) return false;
    good = true;
  }
  return good;
}

/// What the reading says of the part; of its insulation, where that alone tells something, and it is good beside
/// a protective earth and without one.
std::string verdict_words(const MeasuredValue& reading, const Sentences& say) {
  const auto without_earth = [](const job::SafetyFinding& finding) {
    return finding.without_earth.value_or(finding.outcome) == Outcome::within_limits;
  };
  if (reading.outcome == Outcome::undecided && is_good_insulation(reading) &&
      std::all_of(reading.safety.begin(), reading.safety.end(), without_earth))
    return say(OHMWRIGHT_TEXT("INSULATION IN SPEC, the rest open"));
  return outcome_words(reading.outcome, say);
}

/// The reading of the same part, of another time, by which its insulation is known to be good; null: none.
const MeasuredValue* proved_safe_by(const ServiceCall& call, const MeasuredValue& reading) {
  if (reading.part.empty() || !reading.safety.empty()) return nullptr;
  const MeasuredValue* by = nullptr;
  for (const MeasuredValue& other : call.readings)
    if (other.part == reading.part && is_good_insulation(other) &&
        work_before(call, other) == work_before(call, reading))
      by = &other;
  return by;
}

/// Whether it found a way from the mains to the protective earth or to the case.
bool found_a_leak(const MeasuredValue& reading) {
  return std::any_of(reading.safety.begin(), reading.safety.end(),
                     [](const job::SafetyFinding& finding) { return finding.outcome == Outcome::out_of_limits; });
}

bool bars_by(const std::vector<job::ProofStep>& bars, std::initializer_list<job::ProofStep::Form> forms) {
  return std::any_of(bars.begin(), bars.end(), [&](const job::ProofStep& bar) {
    return std::find(forms.begin(), forms.end(), bar.form) != forms.end();
  });
}

/// A part that read the same again is told once: who signs the sheet has not read it three times.
void add_once(std::vector<std::string>& lines, std::string line) {
  if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(std::move(line));
}

class JobSentences {
 public:
  JobSentences(const JobReport& report, const Sentences& say) : report_(report), call_(report.call), say_(say) {}

  JobContent content() {
    JobContent content;
    content.headline = say_(OHMWRIGHT_TEXT("Job {number}: {title}"),
                            {{"number", std::to_string(report_.line.number)}, {"title", call_.title}});
    content.facts = facts();
    content.wrong = wrong();
    content.done = done();
    content.proof = proof();
    for (const auto& [question, answer] : call_.phone)
      content.phone.push_back(phone_question(question, say_) + ": " + answer);
    content.readings = readings();
    content.judged = judged();
    for (const Check& check : call_.checks)
      if (!check.figures.empty()) content.log_figures = check.figures;
    content.replaced = replaced();
    content.checks = checks();
    content.notes = notes();
    std::vector<job::ProofStep> bars = job::bars_to_leaving_it_plugged_in(call_);
    for (const job::ProofStep& limit : report_.heat_limits)
      if (limit.is_read_bad() && !limit.bars_leaving_it_plugged_in()) bars.push_back(limit);
    content.warning = warning(bars);
    content.watch = watch(content.warning.empty());
    for (const job::ProofStep& bar : bars) content.open_points.push_back(proof_text(bar, say_));
    content.unproved = unproved();
    for (const JobCaution& caution : report_.cautions) {
      content.cautions.push_back(caution.text + " (" + caution.id + "; " + caution.source + ")");
      content.brief_cautions.push_back(caution.brief + " (" + caution.id + ")");
    }
    return content;
  }

 private:
  /// In the customer's words: who signs it has no test points.
  std::string warning(const std::vector<job::ProofStep>& bars) const {
    const std::string of_leak = warning_of_leak();
    const std::string of_bars = warning_of_bars(bars);
    return of_leak + (of_leak.empty() || of_bars.empty() ? "" : " ") + of_bars;
  }

  /// Whether a leak of refrigerant is suspected, and nobody has seen to it.
  bool may_leak_refrigerant() const { return report_.stops_at_sealed_system; }

  /// A plug that is pulled, or a switch, makes a spark: what may leak a gas that burns is cut off elsewhere.
  std::string warning_of_leak() const {
    if (!may_leak_refrigerant()) return {};
    return report_.refrigerant_may_burn
               ? say_(OHMWRIGHT_TEXT("Keep it off, and cut it off at the breaker, not at its plug: it may leak a gas "
                                     "that burns. Open the windows; no flame, no spark, no switch near it."))
               : say_(OHMWRIGHT_TEXT("Leave it switched off: its sealed refrigerant system may leak."));
  }

  std::string warning_of_bars(const std::vector<job::ProofStep>& bars) const {
    using Form = job::ProofStep::Form;
    if (bars.empty()) return {};
    if (bars_by(bars, {Form::leak_to_earth, Form::insulation_not_within, Form::leak_beside}))
      return say_(OHMWRIGHT_TEXT("Do not plug it in: it leaks, and its case may become live."));
    if (bars_by(bars, {Form::leak_unexplained, Form::leak_fell_away}))
      return say_(OHMWRIGHT_TEXT("Do not plug it in: it leaked to its case, and may leak again."));
    if (bars_by(bars, {Form::earth_bond_not_within}))
      return say_(OHMWRIGHT_TEXT("Do not plug it in: its case is not safely earthed."));
    if (bars_by(bars, {Form::heat_did_not_end, Form::heat_end_unproved}))
      return say_(OHMWRIGHT_TEXT("Do not plug it in: it heated, and did not stop by itself."));
    if (std::all_of(bars.begin(), bars.end(),
                    [](const job::ProofStep& bar) { return bar.form == Form::part_not_within; }))
      return call_.cools() ? say_(OHMWRIGHT_TEXT(
                                 "Leave it unplugged: what should end the heat of its defrost is out of its limits."))
                           : say_(OHMWRIGHT_TEXT("Leave it unplugged: what should end its heat is out of its limits."));
    return say_(OHMWRIGHT_TEXT("Do not plug it in: it was not proved safe."));
  }

  std::vector<std::string> facts() const {
    std::vector<std::string> lines;
    const auto add = [&](std::string_view label, const std::string& value) {
      if (!value.empty()) lines.push_back(say_(label) + ": " + value);
    };
    add(OHMWRIGHT_TEXT("Complaint"), call_.complaint);
    add(OHMWRIGHT_TEXT("Appliance"), report_.appliance_title);
    add(OHMWRIGHT_TEXT("State"),
        job_state_text(call_.state, say_) + (call_.state_reason.empty() ? std::string() : ", " + call_.state_reason));
    add(OHMWRIGHT_TEXT("Opened"), report_.local_time(call_.opened_at));
    if (call_.visits > 1) add(OHMWRIGHT_TEXT("Visits"), std::to_string(call_.visits));
    add(OHMWRIGHT_TEXT("We call back on"), call_.call_back);
    return lines;
  }

  std::vector<std::string> wrong() const {
    std::vector<std::string> lines;
    for (const MeasuredValue& reading : call_.readings) {
      if (reading.outcome != Outcome::out_of_limits && found_a_leak(reading))
        add_once(lines, say_(OHMWRIGHT_TEXT("{place}: {shown}, which is a leak to its case."),
                             {{"place", reading.point.empty() ? reading.title : reading.point},
                              {"shown", reading.for_people()}}));
      if (reading.outcome != Outcome::out_of_limits) continue;
      if (found_a_leak(reading)) {
        add_once(lines, say_(OHMWRIGHT_TEXT("{part} leaked to its case ({shown})."),
                             {{"part", reading.title}, {"shown", reading.for_people()}}));
        continue;
      }
      const ReplacedPart* work = work_before(call_, reading);
      const std::vector<Reading> read = job::readings_of(reading);
      const bool is_open = read.size() == 1 && std::holds_alternative<OverRange>(read.front().observed);
      const std::string_view english =
          work == nullptr && is_open
              ? OHMWRIGHT_TEXT("{part} was open: no current passes through it (its ohms read OL).")
          : work == nullptr    ? OHMWRIGHT_TEXT("{part} was out of its limits: it read {shown}.")
          : work->was_mended() ? OHMWRIGHT_TEXT("{part}, though mended, was out of its limits: it read {shown}.")
                               : OHMWRIGHT_TEXT("{part}, though replaced, was out of its limits: it read {shown}.");
      std::string line = say_(english, {{"part", reading.title}, {"shown", reading.for_people()}});
      if (!reading.beside.empty())
        line += " " + say_(OHMWRIGHT_TEXT("It was judged together with what was read before: {earlier}."),
                           {{"earlier", reading.beside}});
      add_once(lines, line);
    }
    if (lines.empty() && may_leak_refrigerant())
      lines.push_back(say_(OHMWRIGHT_TEXT("What was seen speaks of its sealed refrigerant system.")));
    if (lines.empty() && !report_.found.empty() && (report_.cause_is_named || call_.replaced.empty()))
      lines.push_back(report_.found);
    if (lines.empty())
      for (const ReplacedPart& part : call_.replaced)
        lines.push_back(say_(part.was_mended()
                                 ? OHMWRIGHT_TEXT("{part} was mended in place; that it was the cause was not proved.")
                                 : OHMWRIGHT_TEXT("{part} was replaced; that it was the cause was not proved."),
                             {{"part", part.title}}));
    for (const job::EvidenceWord& word : call_.evidence)
      if (word.option == "--looked" && word.word.ends_with("=found"))
        add_once(lines, say_(OHMWRIGHT_TEXT("Found: {cause}."), {{"cause", title_of_cause(word.word)}}));
    if (lines.empty()) lines.push_back(say_(OHMWRIGHT_TEXT("Nothing was found to be out of its limits.")));
    return lines;
  }

  /// Of "door-gasket=found" what people call it, where its appliance is still known.
  std::string title_of_cause(std::string_view looked) const {
    const std::string_view id = looked.substr(0, looked.find('='));
    const auto known = report_.cause_titles.find(id);
    return known == report_.cause_titles.end() ? std::string(id) : known->second;
  }

  std::string mended_in_place(const ReplacedPart& part) const {
    return say_(OHMWRIGHT_TEXT("{part} mended in place: {what}."), {{"part", part.title}, {"what", part.mended}});
  }

  std::vector<std::string> done() const {
    std::vector<std::string> lines;
    for (const ReplacedPart& part : call_.replaced)
      lines.push_back(part.was_mended()        ? mended_in_place(part)
                      : part.new_title.empty() ? say_(OHMWRIGHT_TEXT("{part} replaced."), {{"part", part.title}})
                                               : say_(OHMWRIGHT_TEXT("{part} replaced by: {new}."),
                                                      {{"part", part.title}, {"new", part.new_title}}));
    std::size_t good = 0;
    for (const MeasuredValue& reading : call_.readings)
      good += reading.outcome == Outcome::within_limits && call_.last_work_on(reading.subject()) == nullptr ? 1U : 0U;
    lines.push_back(
        say_(OHMWRIGHT_TEXT("Readings taken: {count}."), {{"count", std::to_string(call_.readings.size())}}));
    if (good > 0) lines.push_back(say_(OHMWRIGHT_TEXT("Parts found good were left in place.")));
    return lines;
  }

  /// In the customer's words: what the shop does of it stands in the shop's part.
  std::string failed_check(job::ProofStep::Form form) const {
    using Form = job::ProofStep::Form;
    return form == Form::log_unproved
               ? say_(OHMWRIGHT_TEXT("A log from before the repair showed a fault, and none since shows it gone."))
           : form == Form::log_shows_fault
               ? say_(call_.replaced.empty()
                          ? OHMWRIGHT_TEXT("The log shows a fault.")
                          : OHMWRIGHT_TEXT("The log from after the repair showed a fault, and none since shows it "
                                           "gone."))
           : form == Form::heat_did_not_end || form == Form::heat_end_unproved
               ? say_(OHMWRIGHT_TEXT("A forced defrost heated and did not end by itself, and none has ended by itself "
                                     "since."))
               : say_(OHMWRIGHT_TEXT("A forced defrost did not heat, and none has since."));
  }

  std::vector<std::string> proof() const {
    std::vector<std::string> lines;
    const std::vector<job::ProofStep> open = job::open_proof(call_);
    for (const MeasuredValue& reading : call_.readings)
      if (reading.outcome == Outcome::within_limits && replaced_before(call_, reading) &&
          is_of_part_in_place(call_, reading) && is_last_of_part(call_, reading, decides_something) &&
          !is_spoken_against(open, reading))
        add_once(lines, say_(OHMWRIGHT_TEXT("{part} now reads {shown}, within its limits."),
                             {{"part", reading.title}, {"shown", reading.for_people()}}));
    for (const MeasuredValue& reading : call_.readings)
      if (is_good_insulation(reading) && is_of_part_in_place(call_, reading) &&
          is_last_of_part(call_, reading, is_of_insulation) && !insulation_is_spoken_against(open, reading))
        add_once(lines, say_(OHMWRIGHT_TEXT("{part}: {shown}, within its limits."),
                             {{"part", reading.title}, {"shown", reading.for_people()}}));
    for (const Check& check : call_.checks)
      if (check.outcome == Outcome::within_limits && check.result != job::no_earth &&
          job::last_check(call_, check.form) == &check)
        lines.push_back(check.text);  // that it has no earth is told in the shop's part, and proves nothing
    if (lines.empty()) lines.push_back(say_(OHMWRIGHT_TEXT("Nothing is proved yet.")));
    for (const job::ProofStep& step : open) {
      if (step.form == job::ProofStep::Form::forced_defrost && call_.state == job::JobState::repaired)
        lines.push_back(say_(OHMWRIGHT_TEXT("That it defrosts when it is told to was not proved.")));
      if (step.is_failed_check()) add_once(lines, failed_check(step.form));
      if (step.form == job::ProofStep::Form::cause_unlooked_for || step.form == job::ProofStep::Form::trip_unlooked_for)
        lines.push_back(say_(OHMWRIGHT_TEXT("{part}: what overheated it was not found."), {{"part", step.subject}}));
      else if (step.leaves_new_part_open())
        lines.push_back(say_(step.mended ? OHMWRIGHT_TEXT("{part}: that it is good, mended, was not proved.")
                                         : OHMWRIGHT_TEXT("{part}: that the new one is good was not proved."),
                             {{"part", step.subject}}));
    }
    return lines;
  }

  /// Nothing before something was repaired: then all that a call may still do would stand there.
  std::vector<std::string> unproved() const {
    std::vector<std::string> lines;
    if (call_.replaced.empty() && call_.state != job::JobState::repaired) return lines;
    for (const job::ProofStep& step : job::open_proof(call_))
      if (!step.bars_leaving_it_plugged_in()) lines.push_back(proof_text(step, say_));
    for (const job::ProofStep& limit : report_.heat_limits)
      if (!limit.is_read_bad() && !limit.bars_leaving_it_plugged_in()) add_once(lines, proof_text(limit, say_));
    return lines;
  }

  /// Whether a leak was read, dry or wet, and no part replaced or mended since.
  bool leaked_and_was_left() const {
    const ReplacedPart* work = call_.last_work();
    return std::any_of(call_.readings.begin(), call_.readings.end(), [&](const MeasuredValue& reading) {
      return found_a_leak(reading) && (work == nullptr || work->happened_before(reading));
    });
  }

  std::vector<std::string> watch(bool may_run) const {
    std::vector<std::string> lines;
    const bool logged = std::any_of(call_.checks.begin(), call_.checks.end(), [](const Check& check) {
      return check.form == job::CheckForm::log && check.outcome == Outcome::within_limits;
    });
    if (may_run && !call_.replaced.empty() && !logged && call_.cools())
      lines.push_back(say_(OHMWRIGHT_TEXT(
          "Only some days of running prove that it defrosts by itself: keep an eye on frost and on the temperature.")));
    if (may_run && !call_.complaint.empty() && !call_.replaced.empty())
      lines.push_back(say_(OHMWRIGHT_TEXT("Call if it comes back: {complaint}."), {{"complaint", call_.complaint}}));
    if (leaked_and_was_left())
      lines.push_back(say_(
          OHMWRIGHT_TEXT("It leaked to its case, and nothing was replaced or mended since: what water did comes back "
                         "with the water.")));
    if (may_leak_refrigerant())
      lines.push_back(
          say_(OHMWRIGHT_TEXT("Its refrigerant system is opened and mended by those licensed for it alone, "
                              "under local codes: leave it off until they have seen it.")));
    else
      lines.push_back(
          say_(OHMWRIGHT_TEXT("If it tingles, smells burnt or trips the breaker: pull the plug, leave it, and call.")));
    return lines;
  }

  std::vector<std::vector<std::string>> readings() const {
    std::vector<std::vector<std::string>> rows{
        {say_(OHMWRIGHT_TEXT("Where")), say_(OHMWRIGHT_TEXT("When")), say_(OHMWRIGHT_TEXT("Visit")),
         say_(OHMWRIGHT_TEXT("Showed")), say_(OHMWRIGHT_TEXT("Verdict")), say_(OHMWRIGHT_TEXT("Chance in spec"))}};
    for (const MeasuredValue& reading : call_.readings)
      rows.push_back({reading.title.empty() ? reading.place : reading.title, report_.local_time(reading.when),
                      std::to_string(reading.visit), reading.for_people(), verdict_words(reading, say_),
                      reading.probability ? percent_text(*reading.probability) : std::string("-")});
    return rows;
  }

  std::vector<std::string> judged() const {
    std::vector<std::string> lines;
    for (const MeasuredValue& reading : call_.readings) {
      if (!reading.outcome) continue;
      std::string line = reading.title + ": ";
      for (const std::string& reason : reading.reasons) line += reason + " ";
      if (const MeasuredValue* by = proved_safe_by(call_, reading))
        line += say_(OHMWRIGHT_TEXT("Its insulation was read on its own: {shown}, within its limits."),
                     {{"shown", by->for_people()}}) +
                " ";
      if (!reading.doubt.empty()) line += say_(OHMWRIGHT_TEXT("Doubt from:")) + " ";
      for (std::size_t i = 0; i < reading.doubt.size(); ++i) line += (i == 0 ? "" : "; ") + reading.doubt[i];
      if (!reading.meter.empty()) line += (reading.doubt.empty() ? "" : ". ") + reading.meter + ".";
      lines.push_back(line);
    }
    return lines;
  }

  std::vector<std::string> replaced() const {
    std::vector<std::string> lines;
    for (const ReplacedPart& part : call_.replaced) {
      if (part.was_mended()) {
        lines.push_back(report_.local_time(part.when) + ": " + mended_in_place(part));
        continue;
      }
      const std::string none = say_(OHMWRIGHT_TEXT("unknown"));
      std::string line = say_(OHMWRIGHT_TEXT("{part}: {old} out, {new} in; equivalent: {answer}"),
                              {{"part", part.title},
                               {"old", part.old_title.empty() ? none : part.old_title},
                               {"new", part.new_title.empty() ? none : part.new_title},
                               {"answer", outcome_words(part.equivalence, say_)}});
      for (const std::string& difference : part.differences) line += "; " + difference;
      if (!part.because.empty()) line += "; " + say_(OHMWRIGHT_TEXT("taken because: {why}"), {{"why", part.because}});
      lines.push_back(line);
    }
    return lines;
  }

  std::vector<std::string> checks() const {
    std::vector<std::string> lines;
    for (const Check& check : call_.checks) {
      lines.push_back(report_.local_time(check.when) + ": " + check.text + " (" + outcome_words(check.outcome, say_) +
                      ")");
      lines.insert(lines.end(), check.lines.begin(), check.lines.end());  // what a log cannot show: words of the shop
    }
    return lines;
  }

  std::vector<std::string> notes() const {
    std::vector<std::string> lines;
    for (const job::WrittenNote& agreement : call_.agreements)
      lines.push_back(
          report_.local_time(agreement.when) + ": " +
          say_(OHMWRIGHT_TEXT("agreed to the caution of the live step {step}"), {{"step", agreement.text}}));
    for (const job::WrittenNote& note : call_.notes) lines.push_back(report_.local_time(note.when) + ": " + note.text);
    return lines;
  }

  const JobReport& report_;
  const ServiceCall& call_;
  const Sentences& say_;
};

void make_printable(std::vector<std::string>& lines) {
  for (std::string& line : lines) line = printable(line);
}

}  // namespace

JobContent job_content(const JobReport& report, const Sentences& say) { return JobSentences(report, say).content(); }

JobContent printable_job_content(const JobReport& report, const Sentences& say) {
  JobContent content = job_content(report, say);
  content.warning = printable(content.warning);
  content.headline = printable(content.headline);
  for (std::vector<std::string>* lines :
       {&content.facts, &content.wrong, &content.done, &content.proof, &content.watch, &content.phone, &content.judged,
        &content.replaced, &content.checks, &content.notes, &content.open_points, &content.unproved, &content.cautions,
        &content.brief_cautions})
    make_printable(*lines);
  for (std::vector<std::string>& row : content.readings) make_printable(row);
  for (std::vector<std::string>& row : content.log_figures) make_printable(row);
  return content;
}

}  // namespace ohmwright
