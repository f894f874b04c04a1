#pragma once

#include <ohmwright/cycles/reading/dialect.hpp>
#include <ohmwright/cycles/reading/head_table.hpp>

namespace ohmwright::cycles {

/// Whether the rows of a log's head run from the newest to the oldest, as some exports write them. Never so for a log
/// without a date or a count: there a time that falls is midnight.
bool newest_comes_first(const LogDialect& dialect, const HeadTable& table);

}  // namespace ohmwright::cycles
