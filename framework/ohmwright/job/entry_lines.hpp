#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/job/job_book.hpp>

namespace ohmwright::job {

/// An entry as one line of JSON with its line feed (schemas/job-entry.schema.json).
std::string entry_line(const MovedEntry& moved);

/// The entries of such lines; blank lines are passed over. Throws DocumentError that names every bad line: what is no
/// JSON, what the schema does not allow, a day that no calendar has, a time more than a day after `now` (milliseconds
/// as `BookSources` gives them), behind which nothing could be written any more. `file` is how messages call it.
std::vector<MovedEntry> entries_of_lines(std::string_view lines, const std::string& file, std::int64_t now);

}  // namespace ohmwright::job
