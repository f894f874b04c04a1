#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/batch/batch_run.hpp>
#include <ohmwright/batch/journal.hpp>
#include <ohmwright/document/open_file.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// Where the records of a batch go: the standard output, or a file that gets its name when all of them are in it. Until
/// then they stand in FILE.unfinished, and FILE.journal says how far they reach, so that a run that was killed can go
/// on.
class BatchOutput {
 public:
  /// `path` is empty for the standard output. `made_from` is what the answer depends on. With `resume` it goes on where
  /// the journal says, if there is one. Throws InputError for a journal of another run, and as writing files does.
  BatchOutput(std::string path, std::vector<std::string> made_from, bool resume, Environment& environment);

  /// Where to go on reading.
  const batch::InputPosition& begin() const { return journal_.finished; }

  /// Writes what a block gave. Throws InputError when it cannot.
  void take(batch::JudgedBlock& judged);
  /// Gives the file its name. Throws InputError when it cannot.
  void finish();
  const batch::Summary& summary() const { return journal_.summary; }

 private:
  void resume_or_refuse(const batch::Journal& journal);
  void write_all(const std::string& bytes);
  void keep_place();
  void show_progress();
  [[noreturn]] void fail(const std::string& doing) const;

  std::string path_;
  std::string unfinished_;
  std::string journal_path_;
  Environment& environment_;
  std::optional<OpenFile> file_;
  batch::Journal journal_;
  std::uint64_t kept_bytes_ = 0;
  bool is_straight_ = false;  ///< into a pipe or a device, which has no journal
  bool shows_progress_ = false;
  bool progress_shown_ = false;
  std::chrono::steady_clock::time_point shown_at_;
};

}  // namespace ohmwright::cli
