#pragma once

#include "rules/scene.hpp"

namespace ohmwright::kind_file {

/// Adds what to do next: what the file says of what the rules said; and, of a part that no rule condemns, what the
/// circumstances lack and what would decide it, with its chance.
void advise(const Scene& scene);

}  // namespace ohmwright::kind_file
