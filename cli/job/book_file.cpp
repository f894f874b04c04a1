#include "job/book_file.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <optional>
#include <ostream>
#include <pwd.h>
#include <random>
#include <unistd.h>
#include <utility>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

#include "job/lost_files.hpp"
#include "made_with.hpp"

namespace ohmwright::cli {

std::int64_t milliseconds_now() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::system_clock::now().time_since_epoch())
      .count();
}

namespace {

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string() : std::string(value);
}

std::string book_path(const Arguments& arguments) {
  if (arguments.has("--book")) return arguments.value("--book");
  if (const std::string data = variable("XDG_DATA_HOME"); !data.empty()) return data + "/ohmwright/jobs.db";
  if (const std::string home = variable("HOME"); !home.empty()) return home + "/.local/share/ohmwright/jobs.db";
  throw InputError(
      "nobody says where the job book is: neither XDG_DATA_HOME nor HOME is set; name it with --book FILE");
}

/// From the operating system's own generator.
std::array<std::uint8_t, 16> random_bytes() {
  std::random_device device;
  std::array<std::uint8_t, 16> bytes{};
  for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(device());
  return bytes;
}

/// Name of the user who runs the program; empty where the system knows none.
std::string login_name() {
  std::array<char, 4096> space{};
  ::passwd entry{};
  ::passwd* found = nullptr;
  return ::getpwuid_r(::getuid(), &entry, space.data(), space.size(), &found) == 0 && found != nullptr
             ? std::string(found->pw_name)
             : std::string();
}

std::string who_writes(const Arguments& arguments) {
  std::string who = arguments.value("--who", variable("LOGNAME"));
  if (who.empty()) who = login_name();
  if (who.size() > job::Author::longest)
    throw InputError("--who takes a name of at most " + std::to_string(job::Author::longest) + " bytes");
  return who;
}

std::optional<std::int64_t> milliseconds_local(const std::string& text) {
  const std::time_t now = std::time(nullptr);
  std::tm fields{};
  ::localtime_r(&now, &fields);
  int year = fields.tm_year + 1900;
  int month = fields.tm_mon + 1;
  int day = fields.tm_mday;
  int hour = 0;
  int minute = 0;
  int used = 0;
  const bool with_day =
      std::sscanf(text.c_str(), "%4d-%2d-%2d%*1[T ]%2d:%2d%n", &year, &month, &day, &hour, &minute, &used) == 5;
  if (!with_day) {
    year = fields.tm_year + 1900;
    month = fields.tm_mon + 1;
    day = fields.tm_mday;
    if (std::sscanf(text.c_str(), "%2d:%2d%n", &hour, &minute, &used) != 2) return std::nullopt;
  }
  if (static_cast<std::size_t>(used) != text.size() || hour < 0 || hour > 23 || minute < 0 || minute > 59)
    return std::nullopt;
  std::tm asked{};
  asked.tm_year = year - 1900;
  asked.tm_mon = month - 1;
  asked.tm_mday = day;
  asked.tm_hour = hour;
  asked.tm_min = minute;
  asked.tm_isdst = -1;
  const std::time_t second = std::mktime(&asked);
  if (second < 0 || asked.tm_mday != day || asked.tm_mon != month - 1) return std::nullopt;
  return static_cast<std::int64_t>(second) * 1000;
}

/// The minute that --time names; nothing without it.
std::optional<std::int64_t> minute_typed(const Arguments& arguments) {
  if (!arguments.has("--time")) return std::nullopt;
  const std::string text = arguments.value("--time");
  const std::optional<std::int64_t> at = milliseconds_local(text);
  if (!at)
    throw InputError(
        "--time takes a time of today such as 14:30, or a day and a time such as \"2026-03-01 14:30\", got " +
        ohmwright::quoted(text));
  if (*at > milliseconds_now()) throw InputError("--time " + ohmwright::quoted(text) + " is still to come");
  return at;
}

constexpr std::int64_t last_millisecond_of_a_minute = 59'999;

/// Of the minute that is not over yet nobody tells whether it was before or after what is in the book: it is now.
bool is_this_minute(std::int64_t minute) { return milliseconds_now() <= minute + last_millisecond_of_a_minute; }

}  // namespace

std::unique_ptr<job::JobBook> open_book(const Arguments& arguments, bool create) {
  return std::make_unique<job::JobBook>(book_path(arguments), create,
                                        job::Author{who_writes(arguments), program_version()},
                                        job::BookSources{milliseconds_now, random_bytes});
}

void JobAtHand::write(const std::vector<job::NewEntry>& new_entries) {
  book->add(line.number, new_entries, entries.size());
  entries = book->entries(line.number);
  call = job::told(entries);
  line = book->job_named(std::to_string(line.number));
}

job::ServiceCall call_with(const JobAtHand& job, std::span<const job::NewEntry> more) {
  std::vector<job::Entry> entries = job.entries;
  const std::string now = job::time_text(milliseconds_now());
  for (const job::NewEntry& entry : more)
    entries.push_back({"new " + std::to_string(entries.size()),
                       std::string(name_of(entry.form)),
                       now,
                       entry.happened,
                       {},
                       {},
                       entry.corrects,
                       entry.content});
  return job::told(entries);
}

job::ServiceCall call_at(const JobAtHand& job, const std::string& time) {
  if (time.empty()) return job.call;
  const std::optional<std::int64_t> at = job::milliseconds_of(time);
  constexpr std::int64_t minute = last_millisecond_of_a_minute + 1;
  return job::told_until(job.entries, at ? job::time_text(*at / minute * minute + last_millisecond_of_a_minute) : time);
}

JobAtHand job_at_hand(const Arguments& arguments) {
  JobAtHand job;
  job.book = open_book(arguments, false);
  if (arguments.has("--job")) {
    job.line = job.book->job_named(arguments.value("--job"));
  } else {
    std::optional<job::JobLine> latest = job.book->at_hand();
    if (!latest)
      throw InputError("no job is open; begin one with: ohmwright job open TITLE, or name a closed one with --job N");
    job.line = *std::move(latest);
  }
  job.entries = job.book->entries(job.line.number);
  job.call = job::told(job.entries);
  return job;
}

Arguments of_job_written_last(Arguments arguments) {
  if (!arguments.operands.empty()) arguments.options["--job"] = {arguments.operands.front()};
  arguments.operands.clear();
  if (arguments.has("--job")) return arguments;
  const std::vector<job::JobLine> last = open_book(arguments, false)->list({}, 1);
  if (!last.empty()) arguments.options["--job"] = {std::to_string(last.front().number)};
  return arguments;
}

void say_which(const JobAtHand& job, Environment& environment) {
  const Sentences say{UnitPreferences{}};
  environment.out << paragraph(say(OHMWRIGHT_TEXT("Job {number}: {title}"),
                                   {{"number", std::to_string(job.line.number)}, {"title", printable(job.call.title)}}),
                               environment.page.width);
  for (const std::string& lost : lost_files(job.call, environment))
    environment.out << paragraph(lost, environment.page.width);
}

void refuse_closed(const JobAtHand& job) {
  if (job::is_closed(job.call.state))
    throw InputError("job " + std::to_string(job.line.number) + " is closed (" +
                     std::string(job::name_of(job.call.state)) +
                     "); another visit opens it again: ohmwright job visit --job " + std::to_string(job.line.number));
}

std::string local_time(const std::string& time) {
  const std::optional<std::int64_t> at = job::milliseconds_of(time);
  if (!at) return time;
  const auto second = static_cast<std::time_t>(*at / 1000);
  std::tm local{};
  std::array<char, 32> text{};
  if (::localtime_r(&second, &local) == nullptr) return time;
  std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M", &local);
  return text.data();
}

void warn_of_early_time(const JobAtHand& job, const std::string& happened, Environment& environment) {
  if (happened.empty() || happened >= job.call.opened_at) return;
  environment.out << paragraph(
      Sentences{UnitPreferences{}}(
          OHMWRIGHT_TEXT("Mind: {time} was before the job was opened ({opened}). It is taken for what was so then, and "
                         "proves nothing of what was done since."),
          {{"time", local_time(happened)}, {"opened", local_time(job.call.opened_at)}}),
      environment.page.width);
}

std::string time_happened(const Arguments& arguments) {
  const std::optional<std::int64_t> minute = minute_typed(arguments);
  if (!minute || is_this_minute(*minute)) return {};
  return job::time_text(*minute);
}

std::string time_of_work(const Arguments& arguments) {
  const std::optional<std::int64_t> minute = minute_typed(arguments);
  if (!minute || is_this_minute(*minute)) return {};
  return job::time_text(*minute + last_millisecond_of_a_minute);
}

}  // namespace ohmwright::cli
