#pragma once

#include <vector>

#include <ohmwright/job/proof.hpp>

namespace ohmwright::job {

/// Adds the leaks that were read, and are read no more though nothing was done: a part that leaked by itself, wet or
/// dry, and insulates dry now; one that leaked wet, was mended, and was read dry alone since; a test point at which a
/// way to the protective earth fell away. What water did comes back with the water (common practice, no source): only
/// a good reading of the part while it is wet shows that it does not, or that the first reading is taken back.
void add_leaks_left(const ServiceCall& call, std::vector<ProofStep>& all);

}  // namespace ohmwright::job
