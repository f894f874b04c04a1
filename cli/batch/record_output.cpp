#include "batch/record_output.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <ostream>
#include <sys/file.h>
#include <system_error>
#include <unistd.h>
#include <utility>

#include <fmt/format.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

/// Records between two places that the journal keeps [bytes]: a fraction of a second of work, a few hundred of them in
/// a large run. A journal that has grown long, with many lots, is written less often: it costs a twentieth at most.
constexpr std::uint64_t bytes_between_places = std::uint64_t{8} << 20U;
constexpr std::uint64_t bytes_for_one_of_journal = 20;
constexpr std::chrono::milliseconds time_between_shows{1000};

std::string difference_between(const std::vector<std::string>& then, const std::vector<std::string>& now) {
  for (std::size_t i = 0; i < std::min(then.size(), now.size()); ++i)
    if (then[i] != now[i]) return ohmwright::quoted(then[i], 200) + " then, " + ohmwright::quoted(now[i], 200) + " now";
  return "another number of files or options";
}

std::optional<std::uint64_t> size_of(const std::string& path) {
  std::error_code error;
  const std::uintmax_t size = std::filesystem::file_size(path, error);
  return error ? std::nullopt : std::optional<std::uint64_t>(size);
}

void remove_if_there(const std::string& path) {
  std::error_code error;
  std::filesystem::remove(path, error);
}

/// A name that was given or taken is on the disk only when the folder is.
void synchronise_folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const OpenFile open(::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (open.is_open()) ::fsync(open.number());
}

}  // namespace

BatchOutput::BatchOutput(std::string path, std::vector<std::string> made_from, bool resume, batch::UsedFiles& used,
                         Environment& environment)
    : path_(std::move(path)),
      unfinished_(path_ + ".unfinished"),
      journal_path_(path_ + ".journal"),
      done_path_(path_ + ".done"),
      resume_(resume),
      used_(used),
      environment_(environment),
      shows_progress_(::isatty(STDERR_FILENO) == 1),
      shown_at_(std::chrono::steady_clock::now()) {
  journal_.made_from = std::move(made_from);
  if (path_.empty()) return;
  std::error_code error;
  if (std::filesystem::is_directory(path_, error))
    throw InputError("--out " + ohmwright::quoted(path_) + " is a folder; name a file in it");
  is_straight_ = std::filesystem::exists(path_, error) && !std::filesystem::is_regular_file(path_, error);
  if (is_straight_) {
    open_straight();
    return;
  }
  find_what_is_there();
  if (!was_done_) open_unfinished();
}

void BatchOutput::open_straight() {
  if (resume_) throw InputError("--out " + ohmwright::quoted(path_) + " is no file that a run could go on with");
  file_.emplace(::open(path_.c_str(), O_WRONLY | O_CLOEXEC));
  if (!file_->is_open()) fail("cannot be opened");
}

/// An unfinished run, a finished one, or none.
void BatchOutput::find_what_is_there() {
  std::error_code error;
  if (!resume_ && std::filesystem::exists(journal_path_, error))
    throw InputError("a run to " + ohmwright::quoted(path_) + " is unfinished; go on with it (--resume), or remove " +
                     ohmwright::quoted(journal_path_) + " to begin anew");
  if (!resume_) return remove_if_there(done_path_);
  if (const std::optional<batch::Journal> journal = batch::read_journal(journal_path_)) {
    take_up(*journal, journal_path_);
    has_journal_ = true;
    // The end came between the last of the journal and the file's name, or between that and the journal's.
    if (!journal_.is_complete || size_of(unfinished_)) return;
    if (size_of(path_) != journal_.output_bytes)
      throw InputError(ohmwright::quoted(path_) + " is not as " + ohmwright::quoted(journal_path_) +
                       " says; remove both to begin anew");
    was_done_ = true;
    return give_name();
  }
  take_finished();
}

void BatchOutput::take_finished() {
  const std::optional<std::uint64_t> size = size_of(path_);
  if (!size) return remove_if_there(done_path_);
  const std::optional<batch::Journal> done = batch::read_journal(done_path_);
  if (!done || done->output_bytes != *size)
    throw InputError(ohmwright::quoted(path_) +
                     " is there, and nothing says of which run it is; remove it to begin anew, or name another --out");
  take_up(*done, done_path_);
  was_done_ = true;
}

void BatchOutput::take_up(const batch::Journal& journal, const std::string& where) {
  if (journal.made_from != journal_.made_from)
    throw InputError(ohmwright::quoted(where) +
                     " is of another run: " + difference_between(journal.made_from, journal_.made_from) +
                     "; run it as it was begun, or remove " + ohmwright::quoted(where == done_path_ ? path_ : where) +
                     " to begin anew");
  used_.take_up(journal.files);
  used_.refuse_changed();
  journal_ = journal;
  kept_bytes_ = journal_.output_bytes;
}

void BatchOutput::open_unfinished() {
  file_.emplace(::open(unfinished_.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0666));
  if (!file_->is_open()) fail("cannot be opened");
  if (::flock(file_->number(), LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
    throw InputError(ohmwright::quoted(unfinished_) + " is being written by another run; wait for it, or end it");
  const std::optional<std::uint64_t> size = size_of(unfinished_);
  if (!size) fail("cannot be read");
  if (*size < journal_.output_bytes)
    throw InputError(ohmwright::quoted(unfinished_) + " is shorter than " + ohmwright::quoted(journal_path_) +
                     " says; remove both to begin anew");
  if (::ftruncate(file_->number(), static_cast<off_t>(journal_.output_bytes)) != 0 ||
      ::lseek(file_->number(), 0, SEEK_END) < 0)
    fail("cannot be written");
  if (!has_journal_) keep_place();  // a journal of an earlier run must not meet records of this one
}

void BatchOutput::fail(const std::string& doing) const {
  throw InputError(ohmwright::quoted(path_.empty() ? "standard output" : unfinished_) + " " + doing + ": " +
                   std::generic_category().message(errno) +
                   (path_.empty() ? "" : "; what is finished is kept, --resume goes on from there"));
}

void BatchOutput::write_all(const std::string& bytes) {
  std::size_t written = 0;
  while (written < bytes.size()) {
    const ssize_t got = ::write(file_->number(), bytes.data() + written, bytes.size() - written);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) fail("cannot be written");
    written += static_cast<std::size_t>(got);
  }
}

void BatchOutput::take(batch::JudgedBlock& judged) {
  if (file_)
    write_all(judged.records);
  else if (!environment_.out.write(judged.records.data(), static_cast<std::streamsize>(judged.records.size())))
    fail("cannot be written");
  if (first_refusal_.empty()) first_refusal_ = judged.first_refusal;
  journal_.output_bytes += judged.records.size();
  journal_.finished = judged.end;
  journal_.summary.add(judged.summary);
  const std::uint64_t apart = std::max(bytes_between_places, bytes_for_one_of_journal * journal_bytes_);
  if (file_ && !is_straight_ && journal_.output_bytes - kept_bytes_ >= apart) keep_place();
  show_progress();
}

/// First the records reach the disk, then the journal that speaks of them.
void BatchOutput::keep_place() {
  if (::fdatasync(file_->number()) != 0 && errno != EINVAL) fail("cannot be written");
  used_.refuse_changed();
  journal_.files = used_.all();
  journal_bytes_ = batch::write_journal(journal_path_, journal_);
  kept_bytes_ = journal_.output_bytes;
}

void BatchOutput::show_progress() {
  const auto now = std::chrono::steady_clock::now();
  if (!shows_progress_ || now - shown_at_ < time_between_shows) return;
  shown_at_ = now;
  progress_shown_ = true;
  environment_.err << fmt::format("\r{} lines", journal_.summary.judged() + journal_.summary.refused) << std::flush;
}

/// The journal says that all is there before the file gets its name, and goes after that, so that wherever the end
/// comes the next run knows.
void BatchOutput::finish() {
  if (progress_shown_) environment_.err << '\n';
  used_.refuse_changed();
  if (!file_) return;
  if (is_straight_) {
    if (!file_->close()) fail("cannot be written");
    return;
  }
  journal_.is_complete = true;
  keep_place();
  if (::fsync(file_->number()) != 0 && errno != EINVAL) fail("cannot be written");
  if (::rename(unfinished_.c_str(), path_.c_str()) != 0) fail("cannot be renamed to " + ohmwright::quoted(path_));
  if (!file_->close()) fail("cannot be written");
  give_name();
}

/// What the journal is called once the records have their name.
void BatchOutput::give_name() {
  synchronise_folder_of(path_);
  if (resume_)
    std::filesystem::rename(journal_path_, done_path_);
  else
    remove_if_there(journal_path_);
}

}  // namespace ohmwright::cli
