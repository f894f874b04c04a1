#include <algorithm>
#include <charconv>
#include <ostream>

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
    for (const auto& [name, value] : content.items()) {
      const std::string text = name == job::act_field ? std::string() : value_words(value);
      if (!text.empty()) words += (words.empty() ? "" : "; ") + name + ": " + text;
    }
  words = printable(words);
  if (words.size() <= longest) return words;
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(words[end]) & 0xC0U) == 0x80U) --end;
  return words.substr(0, end) + "…";
}

}  // namespace

int list_jobs(const Arguments& arguments, Environment& environment) {
  const std::size_t most = typed_most(arguments);
  const std::unique_ptr<job::JobBook> book = open_book(arguments, false);
  const std::optional<job::JobState> state = job::job_state_named(arguments.value("--in-state"));
  environment.out << job_list_page(book->list(state, most), book->count(state), local_time,
                                   Sentences{UnitPreferences{}}, environment.page);
  return exit_done;
}

int show_job(const Arguments& arguments, Environment& environment) {
  const JobAtHand job = job_at_hand(of_job_written_last(arguments));
  const Sentences say{UnitPreferences{}};
  say_which(job, environment);
  PageLayout page(environment.page);
  page.block(say(OHMWRIGHT_TEXT("State: {state}"), {{"state", job_state_text(job.call.state, say)}}));
  page.blank_line();
  for (const job::Entry& entry : job.entries) {
    const bool counts = !job::is_corrected(job.entries, entry);
    page.item(entry.id.substr(0, 8) + "  " + local_time(entry.when()) + "  " + printable(entry.form) +
              (counts ? "" : say(OHMWRIGHT_TEXT(" (taken back)"))) +
              (entry.who.empty() ? "" : "  " + printable(entry.who)));
    page.block(entry_words(entry), "      ");
  }
  environment.out << page.take();
  return exit_done;
}

}  // namespace ohmwright::cli
