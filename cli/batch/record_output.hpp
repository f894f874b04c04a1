#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/batch/batch_run.hpp>
#include <ohmwright/batch/journal.hpp>
#include <ohmwright/batch/used_files.hpp>
#include <ohmwright/document/open_file.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// Where the records of a batch go: the standard output, or a file that gets its name when all of them are in it. Until
/// then they stand in FILE.unfinished, and FILE.journal says how far they reach, so that a run that was killed can go
/// on. With `resume` FILE.done stays behind, so that the same run, asked for again, sees that nothing is left to do.
class BatchOutput {
 public:
  /// `path` is empty for the standard output. `made_from` is what was asked for, `used` what is opened for it and must
  /// outlive this. With `resume` it goes on where the journal says, if there is one. Throws InputError for a journal or
  /// a finished file of another run, for an unfinished one where nobody asked to go on with it, for one that another
  /// process is writing, and as writing files does.
  BatchOutput(std::string path, std::vector<std::string> made_from, bool resume, batch::UsedFiles& used,
              Environment& environment);

  /// Whether all of the records were there already.
  bool was_done() const { return was_done_; }
  /// Where to go on reading.
  const batch::InputPosition& begin() const { return journal_.finished; }

  /// Writes what a block gave. Throws InputError when it cannot.
  void take(batch::JudgedBlock& judged);
  /// Gives the file its name. Throws InputError when it cannot.
  void finish();
  const batch::Summary& summary() const { return journal_.summary; }
  /// File, line and reason of the first line that this run refused; empty where it refused none.
  const std::string& first_refusal() const { return first_refusal_; }

 private:
  void open_straight();
  void find_what_is_there();
  void take_finished();
  void take_up(const batch::Journal& journal, const std::string& where);
  void open_unfinished();
  void write_all(const std::string& bytes);
  void keep_place();
  void give_name();
  void show_progress();
  [[noreturn]] void fail(const std::string& doing) const;

  std::string path_;
  std::string unfinished_;
  std::string journal_path_;
  std::string done_path_;
  bool resume_ = false;
  batch::UsedFiles& used_;
  Environment& environment_;
  std::optional<OpenFile> file_;
  batch::Journal journal_;
  std::string first_refusal_;
  std::uint64_t kept_bytes_ = 0;
  std::uint64_t journal_bytes_ = 0;  ///< of the last journal
  bool has_journal_ = false;
  bool was_done_ = false;
  bool is_straight_ = false;  ///< into a pipe or a device, which has no journal
  bool shows_progress_ = false;
  bool progress_shown_ = false;
  std::chrono::steady_clock::time_point shown_at_;
};

}  // namespace ohmwright::cli
