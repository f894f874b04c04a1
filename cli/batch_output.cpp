#include "batch_output.hpp"

#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <ostream>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

#include <fmt/format.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

/// Records between two places that the journal keeps [bytes]: a fraction of a second of work, a few hundred of them in
/// a large run.
constexpr std::uint64_t bytes_between_places = std::uint64_t{8} << 20U;
constexpr std::chrono::milliseconds time_between_shows{1000};

}  // namespace

BatchOutput::BatchOutput(std::string path, std::vector<std::string> made_from, bool resume, Environment& environment)
    : path_(std::move(path)),
      unfinished_(path_ + ".unfinished"),
      journal_path_(path_ + ".journal"),
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
    if (resume) throw InputError("--out " + ohmwright::quoted(path_) + " is no file that a run could go on with");
    file_.emplace(::open(path_.c_str(), O_WRONLY | O_CLOEXEC));
    if (!file_->is_open()) fail("cannot be opened");
    return;
  }
  std::optional<batch::Journal> journal = resume ? batch::read_journal(journal_path_) : std::nullopt;
  if (journal) resume_or_refuse(*journal);
  file_.emplace(::open(unfinished_.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0666));
  if (!file_->is_open()) fail("cannot be opened");
  struct stat status {};
  if (::fstat(file_->number(), &status) != 0) fail("cannot be read");
  if (static_cast<std::uint64_t>(status.st_size) < journal_.output_bytes)
    throw InputError(ohmwright::quoted(unfinished_) + " is shorter than " + ohmwright::quoted(journal_path_) +
                     " says; remove both to begin anew");
  if (::ftruncate(file_->number(), static_cast<off_t>(journal_.output_bytes)) != 0 ||
      ::lseek(file_->number(), 0, SEEK_END) < 0)
    fail("cannot be written");
  if (!journal) keep_place();  // a journal of an earlier run must not meet records of this one
}

void BatchOutput::resume_or_refuse(const batch::Journal& journal) {
  if (journal.made_from != journal_.made_from) {
    std::string differing = "another number of files or options";
    for (std::size_t i = 0; i < std::min(journal.made_from.size(), journal_.made_from.size()); ++i)
      if (journal.made_from[i] != journal_.made_from[i]) {
        differing = ohmwright::quoted(journal.made_from[i], 200) + " then, " +
                    ohmwright::quoted(journal_.made_from[i], 200) + " now";
        break;
      }
    throw InputError(ohmwright::quoted(journal_path_) + " is of another run: " + differing +
                     "; run it as it was begun, or remove the journal to begin anew");
  }
  journal_ = journal;
  kept_bytes_ = journal_.output_bytes;
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
  journal_.output_bytes += judged.records.size();
  journal_.finished = judged.end;
  journal_.summary.add(judged.summary);
  if (file_ && !is_straight_ && journal_.output_bytes - kept_bytes_ >= bytes_between_places) keep_place();
  show_progress();
}

/// First the records reach the disk, then the journal that speaks of them.
void BatchOutput::keep_place() {
  if (::fdatasync(file_->number()) != 0 && errno != EINVAL) fail("cannot be written");
  batch::write_journal(journal_path_, journal_);
  kept_bytes_ = journal_.output_bytes;
}

void BatchOutput::show_progress() {
  const auto now = std::chrono::steady_clock::now();
  if (!shows_progress_ || now - shown_at_ < time_between_shows) return;
  shown_at_ = now;
  progress_shown_ = true;
  environment_.err << fmt::format("\r{} lines", journal_.summary.judged() + journal_.summary.refused) << std::flush;
}

void BatchOutput::finish() {
  if (progress_shown_) environment_.err << '\n';
  if (!file_) return;
  if (is_straight_) {
    if (!file_->close()) fail("cannot be written");
    return;
  }
  if (::fsync(file_->number()) != 0 && errno != EINVAL) fail("cannot be written");
  if (!file_->close()) fail("cannot be written");
  if (::rename(unfinished_.c_str(), path_.c_str()) != 0) fail("cannot be renamed to " + ohmwright::quoted(path_));
  std::error_code error;
  std::filesystem::remove(journal_path_, error);
}

}  // namespace ohmwright::cli
