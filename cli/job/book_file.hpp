#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/job/job_book.hpp>
#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Milliseconds since 1970 by this machine's clock, as `job::BookSources` gives them.
std::int64_t milliseconds_now();

/// The book that --book names, else jobs.db in the person's own data folder. Throws as `JobBook` does.
std::unique_ptr<job::JobBook> open_book(const Arguments& arguments, bool create);

/// A job of a book, told from its entries.
struct JobAtHand {
  std::unique_ptr<job::JobBook> book;
  job::JobLine line;
  std::vector<job::Entry> entries;
  job::ServiceCall call;

  /// Writes entries down, all or none, and tells the call anew. Throws WrittenMeanwhile where another process wrote in
  /// the job since it was read: what was decided on then may no longer hold.
  void write(const std::vector<job::NewEntry>& new_entries);
};

/// The call as it would be with entries that are not written down yet.
job::ServiceCall call_with(const JobAtHand& job, std::span<const job::NewEntry> more);

/// The call as it stood at the end of that minute (`time_text`; empty: now), as far as it is known now.
job::ServiceCall call_at(const JobAtHand& job, const std::string& time);

/// The job that --job names, else the one that was written to last among those that are not closed. Throws InputError
/// where there is none.
JobAtHand job_at_hand(const Arguments& arguments);

/// The arguments with --job naming the one that was written to last, closed or not, where they name none: a job is
/// shown and reported as a rule a moment after it was closed.
Arguments of_job_written_last(Arguments arguments);

/// Says which job is meant, since nobody named it, and what it goes on without.
void say_which(const JobAtHand& job, Environment& environment);

/// Refuses to go on with a job that is closed.
void refuse_closed(const JobAtHand& job);

/// "2026-03-01 14:30" by the local clock.
std::string local_time(const std::string& time);

/// Says that a stated time is from before the job.
void warn_of_early_time(const JobAtHand& job, const std::string& happened, Environment& environment);

/// What --time says, as a book keeps it: HH:MM of today, or YYYY-MM-DD HH:MM; empty, which is now, without --time and
/// for the minute that is not over. Throws InputError for what is no time, or one that is still to come.
std::string time_happened(const Arguments& arguments);

/// The same of work that was done: it is taken to have been done at the end of the minute that was stated, since what
/// was read in that minute may have been read before it.
std::string time_of_work(const Arguments& arguments);

}  // namespace ohmwright::cli
