#pragma once

#include <span>
#include <vector>

#include <ohmwright/job/entry.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// What the options say of signs, temperatures, states and instruments, as entries of a book. A meter's file is read
/// here and kept with its entry. Throws DocumentError for one that is none.
std::vector<job::NewEntry> sign_entries(const Arguments& arguments);

/// One of them.
job::NewEntry sign_entry(std::string_view option, std::string_view word);

/// Throws as `locate` would where an entry names what the call's appliance does not have: before it is in the book.
void refuse_signs_that_say_nothing(std::span<const job::NewEntry> entries, const Arguments& arguments,
                                   const Environment& environment);

}  // namespace ohmwright::cli
