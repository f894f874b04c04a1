#include <algorithm>
#include <charconv>
#include <ostream>

#include <ohmwright/job/job_book.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/book_file.hpp"
#include "job/entry_words.hpp"

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
