#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/batch/block_reader.hpp>
#include <ohmwright/batch/summary.hpp>
#include <ohmwright/batch/used_files.hpp>

namespace ohmwright::batch {

/// How far a run has come: everything before `finished` stands in the first `output_bytes` of the output.
struct Journal {
  std::vector<std::string> made_from;  ///< what was asked for, and of what; another list is another run
  UsedFileMap files;                   ///< that were opened for it
  bool is_complete = false;            ///< nothing is left to judge
  InputPosition finished;
  std::uint64_t output_bytes = 0;
  Summary summary;
};

/// Puts the journal in the place of the one before, whole or not at all; gives its size [bytes]. Throws InputError as
/// `write_file_atomically`.
std::size_t write_journal(const std::string& path, const Journal& journal);

/// The journal there, or nothing where there is none. Throws InputError for one that is damaged.
std::optional<Journal> read_journal(const std::string& path);

}  // namespace ohmwright::batch
