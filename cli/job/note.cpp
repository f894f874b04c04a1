// What is written beside the work: a note, and that an entry was wrong.

#include <algorithm>
#include <ostream>
#include <string>
#include <vector>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/book_file.hpp"
#include "job/entry_words.hpp"
#include "job/repaired.hpp"

namespace ohmwright::cli {

namespace {

std::string all_words(const Arguments& arguments) {
  std::string text;
  for (const std::string& word : arguments.operands) text += (text.empty() ? "" : " ") + word;
  return text;
}

/// The entry whose identifier begins so. Throws InputError.
const job::Entry& entry_named(const JobAtHand& job, const std::string& typed) {
  constexpr std::size_t least_letters = 4;
  const job::Entry* entry = nullptr;
  std::size_t found = 0;
  for (const job::Entry& one : job.entries)
    if (typed.size() >= least_letters && one.id.compare(0, typed.size(), typed) == 0) {
      entry = &one;
      ++found;
    }
  if (found != 1)
    throw InputError((found == 0 ? "the job has no entry " : "more than one entry begins with ") +
                     ohmwright::quoted(typed) + "; see: ohmwright job show");
  return *entry;
}

/// What is to be taken back: the last answer with all its entries, or the one entry that was named. Throws InputError
/// for one of which that would change nothing.
std::vector<const job::Entry*> entries_typed(const JobAtHand& job, const std::string& typed) {
  if (typed == "last") {
    std::vector<const job::Entry*> last = job::last_to_take_back(job.entries);
    if (last.empty()) throw InputError("the job has no entry that can be taken back");
    return last;
  }
  const job::Entry& entry = entry_named(job, typed);
  if (entry.is(job::EntryForm::opened)) throw InputError("the opening of a job is not taken back; close it instead");
  if (entry.is(job::EntryForm::taken_back))
    throw InputError("entry " + entry.id.substr(0, 8) +
                     " takes another one back, and that stays so; what counts after all is entered anew");
  if (job::is_corrected(job.entries, entry))
    throw InputError("entry " + entry.id.substr(0, 8) + " was taken back already; see: ohmwright job show");
  return {&entry};
}

job::Entry taking_back(const job::Entry& entry) {
  job::Entry back;
  back.form = std::string(name_of(job::EntryForm::taken_back));
  back.corrects = entry.id;
  return back;
}

/// The last entry that says how the job stands; null: none.
const job::Entry* last_state(const std::vector<job::Entry>& entries) {
  const auto found = std::find_if(entries.rbegin(), entries.rend(), [&](const job::Entry& entry) {
    return entry.is(job::EntryForm::state) && !job::is_corrected(entries, entry);
  });
  return found == entries.rend() ? nullptr : &*found;
}

/// Whether the job is closed as repaired, and would not be closed so without those entries, by the word why of then.
bool is_repaired_only_by(const JobAtHand& job, const std::vector<const job::Entry*>& without_these,
                         const Environment& environment) {
  std::vector<job::Entry> entries = job.entries;
  for (const job::Entry* entry : without_these) entries.push_back(taking_back(*entry));
  const job::ServiceCall without = job::told(entries);
  const job::Entry* closing = last_state(entries);
  if (without.state != job::JobState::repaired || closing == nullptr) return false;
  Arguments as_then;
  if (!without.state_reason.empty()) as_then.options["--because"] = {without.state_reason};
  entries.push_back(taking_back(*closing));
  return !why_not_repaired(job::told(entries), as_then, environment).why.empty();
}

}  // namespace

int note_in_job(const Arguments& arguments, Environment& environment) {
  const std::string text = all_words(arguments);
  if (text.empty()) throw InputError("missing: the note; such as: ohmwright job note \"gasket torn at the hinge\"");
  JobAtHand job = job_at_hand(arguments);
  job.write({{job::EntryForm::note, job::ContentWriter().text("text", text).content(), time_happened(arguments)}});
  say_which(job, environment);
  environment.out << Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("Noted.")) << '\n';
  return exit_done;
}

int correct_job(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty())
    throw InputError("missing: the entry to take back; ohmwright job show lists them, or: ohmwright job correct last");
  JobAtHand job = job_at_hand(arguments);
  const std::vector<const job::Entry*> back = entries_typed(job, arguments.operands.front());
  const bool reopens = is_repaired_only_by(job, back, environment);
  const bool is_one = back.size() == 1;
  constexpr std::size_t longest = 60;
  std::string what;
  std::vector<job::NewEntry> entries;
  for (const job::Entry* entry : back) {
    what += (what.empty() ? "" : ", ") + printable(entry->form) + " " + entry->id.substr(0, 8);
    if (const std::string words = entry_words(*entry, longest); !words.empty()) what += " (" + words + ")";
    entries.push_back({job::EntryForm::taken_back,
                       job::ContentWriter().text("reason", arguments.value("--because")).content(),
                       {},
                       entry->id});
  }
  if (reopens)
    entries.push_back(
        {job::EntryForm::state, job::ContentWriter().text("state", job::name_of(job::JobState::open)).content()});
  job.write(entries);
  say_which(job, environment);
  environment.out << paragraph(
      Sentences{UnitPreferences{}}(
          is_one ? OHMWRIGHT_TEXT("Taken back: {what}. It stays in the book and no longer counts.")
                 : OHMWRIGHT_TEXT("Taken back: {what}. They stay in the book and no longer count."),
          {{"what", what}}),
      environment.page.width);
  if (reopens)
    environment.out << paragraph(Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT(
                                     "It was closed as repaired, and what made it so is gone: the job is "
                                     "open again. See: ohmwright job verify")),
                                 environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
