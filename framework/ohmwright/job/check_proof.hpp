#pragma once

#include <vector>

#include <ohmwright/job/proof.hpp>

namespace ohmwright::job {

// A forced defrost and a log: what shows that the whole works again.

/// The last check of that form since the last repair; null: none.
const Check* last_check(const ServiceCall& call, CheckForm form);

/// Adds the checks that failed and did not pass since. After a repair, of whatever part, one may be tried again; that
/// it was repaired is shown by nothing else.
void add_failed_checks(const ServiceCall& call, std::vector<ProofStep>& all);

/// Adds the checks that nobody made since the last repair, or that decided nothing. One that failed stands as such.
void add_checks_to_make(const ServiceCall& call, std::vector<ProofStep>& all);

}  // namespace ohmwright::job
