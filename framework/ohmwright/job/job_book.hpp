#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/job/entry.hpp>
#include <ohmwright/job/identifier.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::job {

/// Who writes, and with which program: stands at every entry.
struct Author {
  std::string who;   ///< as they call themselves; may be empty
  std::string tool;  ///< "ohmwright 0.1.0"

  /// Bytes that a book takes of each.
  static constexpr std::size_t longest = 200;
};

/// A job as lists show it.
struct JobLine {
  std::int64_t number = 0;  ///< in this book
  std::string id;           ///< in every book
  std::string state;        ///< as the book says it
  std::string changed;      ///< `time_text` of its last entry
  std::string title;
};

/// An entry with the job that it belongs to, on its way from book to book.
struct MovedEntry {
  std::string job;  ///< identifier
  Entry entry;
};

/// Somebody wrote in the job between reading it and writing in it: what was decided on may no longer hold.
class WrittenMeanwhile : public InputError {
 public:
  using InputError::InputError;
};

/// What a merge brought.
struct Merged {
  std::size_t new_jobs = 0;
  std::size_t new_entries = 0;
  std::size_t known_entries = 0;
};

/// A book of jobs in one file. Every call that writes is one transaction: when it has returned, what it wrote is on the
/// disk; when it throws or the process dies, nothing of it is there. Two processes may use one book; a call that must
/// wait for the other waits ten seconds at most.
///
/// Every call throws InputError, one line that names the file, for a book that is damaged, full, or cannot be written;
/// one that writes also for an author of whom no book can keep the name (`refuse_what_no_book_keeps`).
class JobBook {
 public:
  /// Opens the book; makes it, and its folder, where it is not there and `create`.
  JobBook(const std::string& path, bool create, Author author, BookSources sources);
  ~JobBook();
  JobBook(const JobBook&) = delete;
  JobBook& operator=(const JobBook&) = delete;

  const std::string& path() const { return path_; }

  /// A new job with its first entries, each by itself; gives its number.
  std::int64_t open_job(std::span<const NewEntry> entries);
  /// Adds entries to a job, all or none, as one answer (`act_field`); gives their ids. Times of one job never go back:
  /// an entry that the clock would put before the last one is recorded a millisecond after that. `seen` is how many
  /// entries the job had when what is written was decided: where another process has added one since, throws
  /// WrittenMeanwhile and writes nothing.
  std::vector<std::string> add(std::int64_t job, std::span<const NewEntry> entries,
                               std::optional<std::size_t> seen = std::nullopt);

  /// The entries of a job by the time they were recorded; of one millisecond in the order in which the book took them.
  std::vector<Entry> entries(std::int64_t job) const;
  /// The job of that number, else the one whose identifier begins so (six letters at least). Throws InputError where
  /// there is none, or more than one.
  JobLine job_named(const std::string& number_or_id) const;
  /// The job that was written to last among those that are not closed.
  std::optional<JobLine> at_hand() const;
  /// Jobs, changed last first: in that state, or in any for none.
  std::vector<JobLine> list(std::optional<JobState> state, std::size_t most) const;
  std::size_t count(std::optional<JobState> state) const;

  /// Every entry of the book, or of one job, a job after the other, in the order they were recorded. While `visit` is
  /// called the book is free: whoever reads what it prints may take their time.
  void each_entry(std::optional<std::int64_t> job, const std::function<void(const MovedEntry&)>& visit) const;
  /// Takes entries of other books in, in one transaction: those with a known id are passed over, so that taking them in
  /// twice adds nothing. Throws InputError where an id is known with another content, or in another job.
  Merged merge(std::span<const MovedEntry> entries);

  /// What SQLite's own check of the whole file finds, and entries without their job; empty when all is well.
  std::vector<std::string> damage() const;

 private:
  struct File;

  template <class Work>
  auto guarded(const Work& work) const;
  enum class Written : bool { each_by_itself, together };
  std::vector<std::string> insert(std::int64_t job, std::span<const NewEntry> entries, Written written);

  std::string path_;
  Author author_;
  BookSources sources_;
  std::unique_ptr<File> file_;
};

}  // namespace ohmwright::job
