#include "job/unproved_page.hpp"

#include <algorithm>
#include <ostream>
#include <string>
#include <vector>

#include <ohmwright/job/proof.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "job/safety.hpp"
#include "job/untouched.hpp"
#include "job/worked_part.hpp"

namespace ohmwright::cli {

void write_unproved(const job::ServiceCall& call, bool stops, const PageStyle& style, Environment& environment) {
  const Sentences say{UnitPreferences{}};
  PageLayout page(style);
  if (stops) {
    page.section(say(OHMWRIGHT_TEXT("STOP: this speaks of the sealed refrigerant system")),
                 {say(caution_named("flammable-refrigerant")->english),
                  say(OHMWRIGHT_TEXT("No test with 500 V, no forced defrost, no log: ohmwright job close stopped"))});
    environment.out << page.take();
    return;
  }
  std::vector<std::string> against;
  std::vector<std::string> unproved;
  const auto add = [&](const job::ProofStep& step) {
    (step.bars_energising() ? against : unproved)
        .push_back(printable(proof_text(step, say)) + " " + proof_command(step));
  };
  const std::vector<job::ProofStep> open = job::open_proof(call);
  const auto is_told = [&open](const job::ProofStep& unread) {
    return std::any_of(open.begin(), open.end(), [&](const job::ProofStep& step) {
      return step.form == job::ProofStep::Form::new_part_unread && step.part == unread.part;
    });
  };
  if (call.cools())  // what has no frost is not heated to prove it
    for (const job::ProofStep& step : bars_to_heating(call, environment))
      if (step.form == job::ProofStep::Form::limit_unread && !is_told(step)) add(step);
  for (const job::ProofStep& step : open) add(step);
  for (const job::ProofStep& step : job::bars_to_closing(call, safety_asked(call, environment)))
    if (step.form == job::ProofStep::Form::insulation_unproved ||
        step.form == job::ProofStep::Form::earth_bond_unproved)
      add(step);
  page.section(say(OHMWRIGHT_TEXT("Do not energise it before")), against);
  page.section(say(OHMWRIGHT_TEXT("Still unproved")), unproved);
  if (against.empty() && unproved.empty())
    page.block(call.has_new_repair() || call.repairs_closed == 0
                   ? say(OHMWRIGHT_TEXT("All is proved that can be: ohmwright job close repaired"))
                   : say(OHMWRIGHT_TEXT("Nothing was repaired since it was last closed so: go on searching (ohmwright "
                                        "job next), or close it with what was found: ohmwright job close declined, or "
                                        "close repaired --because TEXT")));
  environment.out << page.take();
}

bool proof_comes_next(const job::ServiceCall& call, bool stops, const Arguments& arguments,
                      const Environment& environment) {
  const job::ReplacedPart* work = call.last_work();
  if (work != nullptr && stops) return true;
  if (work == nullptr || !call.has_new_repair() || job::is_closed(call.state)) return false;
  const auto is_bad_since = [&](const auto& told) {
    return !told.happened_before(*work) && told.outcome == Outcome::out_of_limits;
  };
  const auto is_seen_since = [&](const job::EvidenceWord& word) {
    return !word.happened_before(*work) && (word.option == "--symptom" || word.option == "--code");
  };
  return std::none_of(call.readings.begin(), call.readings.end(), is_bad_since) &&
         std::none_of(call.checks.begin(), call.checks.end(), is_bad_since) &&
         std::none_of(call.evidence.begin(), call.evidence.end(), is_seen_since) &&
         !speaks_of_a_fault_since_repair(call, arguments, environment);
}

}  // namespace ohmwright::cli
