#pragma once

#include <cstddef>
#include <string>

#include <ohmwright/job/entry.hpp>

namespace ohmwright::cli {

/// The entry in a few words: what a person needs to know it again. Cut at `longest` bytes.
std::string entry_words(const job::Entry& entry, std::size_t longest = 160);

}  // namespace ohmwright::cli
