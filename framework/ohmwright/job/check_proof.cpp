#include <ohmwright/job/check_proof.hpp>

namespace ohmwright::job {

namespace {

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

bool is_any(const Check&) { return true; }
bool did_not_end(const Check& check) { return check.result == heat_without_end; }
bool did_not_heat(const Check& check) { return check.result != heat_without_end; }

void add_check_to_make(const ServiceCall& call, CheckForm wanted, ProofForm form, std::vector<ProofStep>& all) {
  if (standing_failure(call, wanted, is_any) != nullptr) return;
  const Check* last = last_check(call, wanted);
  if (last == nullptr || last->outcome == Outcome::undecided) all.push_back({.form = form});
}

}  // namespace

const Check* last_check(const ServiceCall& call, CheckForm form) {
  const ReplacedPart* since = call.last_work();
  return latest(call.checks, [&](const Check& check) {
    return check.form == form && (since == nullptr || !check.happened_before(*since));
  });
}

void add_failed_checks(const ServiceCall& call, std::vector<ProofStep>& all) {
  const ReplacedPart* repair = call.last_work();
  const auto add = [&](const Check* failed, ProofForm now, ProofForm since_repair) {
    if (failed == nullptr) return;
    const bool was_repaired = repair != nullptr && !repair->happened_before(*failed);
    all.push_back({.form = was_repaired ? since_repair : now, .entry = failed->entry});
  };
  add(standing_failure(call, CheckForm::forced_defrost, did_not_end), ProofForm::heat_did_not_end,
      ProofForm::heat_end_unproved);
  add(standing_failure(call, CheckForm::forced_defrost, did_not_heat), ProofForm::heat_did_not_come,
      ProofForm::heat_unproved);
  add(standing_failure(call, CheckForm::log, is_any), ProofForm::log_shows_fault, ProofForm::log_unproved);
}

void add_checks_to_make(const ServiceCall& call, std::vector<ProofStep>& all) {
  add_check_to_make(call, CheckForm::forced_defrost, ProofForm::forced_defrost, all);
  add_check_to_make(call, CheckForm::log, ProofForm::log, all);
}

}  // namespace ohmwright::job
