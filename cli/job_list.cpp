#include <charconv>
#include <ostream>
#include <set>

#include <ohmwright/job/job_book.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_book_file.hpp"

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

/// The entry in one line: what a person needs to know it again.
std::string entry_words(const job::Entry& entry) {
  constexpr std::size_t longest = 160;
  std::string content = printable(entry.content);
  if (content.size() > longest) {
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(content[end]) & 0xC0U) == 0x80U) --end;
    content = content.substr(0, end) + "…";
  }
  return content;
}

}  // namespace

int list_jobs(const Arguments& arguments, Environment& environment) {
  const std::size_t most = typed_most(arguments);
  const std::unique_ptr<job::JobBook> book = open_book(arguments, false);
  const std::string state = arguments.value("--in-state");
  environment.out << job_list_page(book->list(state, most), book->count(state), local_time,
                                   Sentences{UnitPreferences{}}, environment.page);
  return exit_done;
}

int show_job(const Arguments& arguments, Environment& environment) {
  Arguments of_job = arguments;
  if (!arguments.operands.empty()) of_job.options["--job"] = {arguments.operands.front()};
  const JobAtHand job = job_at_hand(of_job);
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
