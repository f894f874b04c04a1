#pragma once

#include <vector>

#include <ohmwright/job/proof.hpp>

namespace ohmwright::job {

// Whether it may be energised: leaks to earth, insulation, earth bond.

/// Whether it read an insulation and found it within limits.
bool reads_good_insulation(const MeasuredValue& reading);

/// Adds what was read bad or left open of them, and what a repair or a sign of shock asks to be read.
void add_safety_proof(const ServiceCall& call, std::vector<ProofStep>& all);

}  // namespace ohmwright::job
