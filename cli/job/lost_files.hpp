#pragma once

#include <string>
#include <vector>

#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// Files that a call named, that its book does not keep, and that can no longer be read: a sentence each, with what is
/// taken in their place and how they are named anew. The job goes on without them.
std::vector<std::string> lost_files(const job::ServiceCall& call, const Environment& environment);

}  // namespace ohmwright::cli
