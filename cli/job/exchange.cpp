#include <ostream>

#include <ohmwright/document/source_text.hpp>
#include <ohmwright/job/entry_lines.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/book_file.hpp"
#include "output.hpp"

namespace ohmwright::cli {

int export_jobs(const Arguments& arguments, Environment& environment) {
  const std::unique_ptr<job::JobBook> book = open_book(arguments, false);
  std::optional<std::int64_t> only;
  if (arguments.has("--job")) only = book->job_named(arguments.value("--job")).number;
  if (arguments.value("--out", "-") == "-") {
    book->each_entry(only, [&](const job::MovedEntry& moved) { environment.out << job::entry_line(moved); });
    return exit_done;
  }
  std::string lines;
  book->each_entry(only, [&](const job::MovedEntry& moved) { lines += job::entry_line(moved); });
  deliver(lines, arguments, environment);
  return exit_done;
}

int import_jobs(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.size() != 1) throw InputError("job import takes one file that job export wrote, or -");
  constexpr std::size_t most_bytes = std::size_t{1} << 30U;
  const std::string& path = arguments.operands.front();
  const std::vector<job::MovedEntry> entries =
      job::entries_of_lines(read_source(path, most_bytes), path, milliseconds_now());
  const job::Merged merged = open_book(arguments, true)->merge(entries);
  environment.out << paragraph(
      Sentences{UnitPreferences{}}(
          OHMWRIGHT_TEXT("Taken in: {jobs} jobs, {entries} entries; {known} were there already."),
          {{"jobs", std::to_string(merged.new_jobs)},
           {"entries", std::to_string(merged.new_entries)},
           {"known", std::to_string(merged.known_entries)}}),
      environment.page.width);
  return exit_done;
}

int check_book(const Arguments& arguments, Environment& environment) {
  const std::unique_ptr<job::JobBook> book = open_book(arguments, false);
  const std::vector<std::string> damage = book->damage();
  if (!damage.empty())
    throw InputError("the job book is damaged: " + damage.front() +
                     "; take a copy of it, begin a new one with --book, and import your last export into that");
  environment.out << Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("The book is sound; jobs in it: {jobs}."),
                                                  {{"jobs", std::to_string(book->count({}))}})
                  << '\n';
  return exit_done;
}

}  // namespace ohmwright::cli
