#include <iostream>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/book_file.hpp"
#include "job/phone.hpp"
#include "job/search.hpp"
#include "job/signs.hpp"

namespace ohmwright::cli {

namespace {

std::vector<job::NewEntry> typed_phone_answers(const Arguments& arguments) {
  std::vector<job::NewEntry> entries;
  const auto given = arguments.options.find("--answer");
  if (given == arguments.options.end()) return entries;
  for (const std::string& word : given->second) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0)
      throw InputError("--answer takes QUESTION=ANSWER, such as tingles=no, got " + ohmwright::quoted(word));
    entries.push_back(phone_entry(word.substr(0, equals), word.substr(equals + 1)));
  }
  return entries;
}

/// Every question that was not answered yet; each answer is in the book before the next is asked.
void ask_the_rest(JobAtHand& job, Environment& environment, const Sentences& say) {
  while (const PhoneQuestion* question = next_phone_question(job.call)) {
    const std::optional<std::string> answer = ask_phone_question(*question, std::cin, environment, say);
    if (!answer) return;
    job.write({phone_entry(std::string(question->id), *answer)});
  }
}

}  // namespace

int open_job(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty())
    throw InputError("missing: TITLE, the call in a few words; such as: ohmwright job open \"Freezer warm\"");
  std::string title;
  for (const std::string& word : arguments.operands) title += (title.empty() ? "" : " ") + word;
  if (title.find_first_not_of(" \t\n\r") == std::string::npos)
    throw InputError("TITLE, the call in a few words, is empty; such as: ohmwright job open \"Freezer warm\"");
  std::vector<job::NewEntry> entries{
      {job::EntryForm::opened,
       job::ContentWriter().text("title", title).text("complaint", arguments.value("--complaint")).content()}};
  for (job::NewEntry& entry : typed_phone_answers(arguments)) entries.push_back(std::move(entry));
  if (arguments.has("--appliance")) entries.push_back(appliance_entry(arguments.value("--appliance"), environment));
  for (job::NewEntry& entry : sign_entries(arguments)) entries.push_back(std::move(entry));
  for (job::NewEntry& entry : entries) entry.happened = time_happened(arguments);
  refuse_signs_that_say_nothing(entries, arguments, environment);
  const std::int64_t number = open_book(arguments, true)->open_job(entries);
  Arguments of_job = arguments;
  of_job.options["--job"] = {std::to_string(number)};
  JobAtHand job = job_at_hand(of_job);
  const Sentences say{UnitPreferences{}};
  say_which(job, environment);
  if (arguments.has("--phone")) ask_the_rest(job, environment, say);
  environment.out << phone_advice(job.call, say, environment.page) << '\n'
                  << paragraph(job.call.has_appliance()
                                   ? say(OHMWRIGHT_TEXT("Go on with: ohmwright job next"))
                                   : say(OHMWRIGHT_TEXT("Go on with: ohmwright job sign --appliance NAME|FILE")),
                               environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
