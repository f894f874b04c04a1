#include <algorithm>
#include <charconv>
#include <ostream>
#include <set>

#include <nlohmann/json.hpp>

#include <ohmwright/job/job_book.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/book_file.hpp"

namespace ohmwright::cli {

namespace {

std::size_t typed_most(const Arguments& arguments) {
  std::size_t most = 20;
  if (!arguments.has("--most")) return most;
  const std::string text = arguments.value("--most");
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), most);
  if (error != std::errc() || end != text.data() + text.size() || most == 0 || most > 1'000'000)
    throw InputError("--most takes a number from 1 to 1000000, got " + ohmwright::quoted(text));
  return most;
}

/// A value of an entry for people; empty for records, which are for programs.
std::string value_words(const nlohmann::ordered_json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  return value.is_number() ? value.dump() : std::string();
}

/// The entry in a few words: what a person needs to know it again.
std::string entry_words(const job::Entry& entry) {
  constexpr std::size_t longest = 160;
  const auto content = nlohmann::ordered_json::parse(entry.content, nullptr, false);
  std::string words;
  if (content.is_object())
    for (const auto& [name, value] : content.items())
      if (const std::string text = value_words(value); !text.empty())
        words += (words.empty() ? "" : "; ") + name + ": " + text;
  words = printable(words);
  if (words.size() <= longest) return words;
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(words[end]) & 0xC0U) == 0x80U) --end;
  return words.substr(0, end) + "…";
}

/// Those of the lines that wait for a log and are not safe to run, as the open jobs that they are.
std::vector<job::JobLine> unsafe_among(const std::vector<job::JobLine>& lines, const job::JobBook& book) {
  std::vector<job::JobLine> unsafe;
  for (job::JobLine line : lines) {
    if (line.state != job::name_of(job::JobState::waits_for_log)) continue;
    line.state = job::name_of(job::told(book.entries(line.number)).state);
    if (line.state != job::name_of(job::JobState::waits_for_log)) unsafe.push_back(std::move(line));
  }
  return unsafe;
}

}  // namespace

int list_jobs(const Arguments& arguments, Environment& environment) {
  const std::size_t most = typed_most(arguments);
  const std::unique_ptr<job::JobBook> book = open_book(arguments, false);
  const std::optional<job::JobState> state = job::job_state_named(arguments.value("--in-state"));
  std::vector<job::JobLine> lines = book->list(state, most);
  std::size_t count = book->count(state);
  // One that is not safe to run waits for no log, whatever its last entry of state says: it is among the open ones.
  if (state && (*state == job::JobState::open || *state == job::JobState::waits_for_log)) {
    const std::vector<job::JobLine> unsafe = unsafe_among(book->list(job::JobState::waits_for_log, most), *book);
    const bool adds = *state == job::JobState::open;
    const auto is_unsafe = [&](const job::JobLine& line) {
      return std::any_of(unsafe.begin(), unsafe.end(), [&](const auto& one) { return one.number == line.number; });
    };
    if (adds) lines.insert(lines.begin(), unsafe.begin(), unsafe.end());
    if (lines.size() > most) lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(most), lines.end());
    if (!adds) std::erase_if(lines, is_unsafe);
    count = adds ? count + unsafe.size() : count - unsafe.size();
  } else {
    for (job::JobLine& line : unsafe_among(lines, *book))
      std::find_if(lines.begin(), lines.end(), [&](const auto& one) { return one.number == line.number; })->state =
          line.state;
  }
  environment.out << job_list_page(lines, count, local_time, Sentences{UnitPreferences{}}, environment.page);
  return exit_done;
}

int show_job(const Arguments& arguments, Environment& environment) {
  const JobAtHand job = job_at_hand(of_job_written_last(arguments));
  const Sentences say{UnitPreferences{}};
  say_which(job, environment);
  std::set<std::string> corrected;
  for (const job::Entry& entry : job.entries) corrected.insert(entry.corrects);
  PageLayout page(environment.page);
  page.block(say(OHMWRIGHT_TEXT("State: {state}"), {{"state", job_state_text(job.call.state, say)}}));
  page.blank_line();
  for (const job::Entry& entry : job.entries) {
    const bool counts = corrected.count(entry.id) == 0;
    page.item(entry.id.substr(0, 8) + "  " + local_time(entry.when()) + "  " + printable(entry.form) +
              (counts ? "" : say(OHMWRIGHT_TEXT(" (taken back)"))) +
              (entry.who.empty() ? "" : "  " + printable(entry.who)));
    page.block(entry_words(entry), "      ");
  }
  environment.out << page.take();
  return exit_done;
}

}  // namespace ohmwright::cli
