// What is seen and known without a meter.

#include "job/signs.hpp"

#include <algorithm>
#include <array>
#include <ostream>

#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/service_call.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/book_file.hpp"
#include "job/reading_judged.hpp"
#include "job/safety.hpp"
#include "job/search.hpp"
#include "kind_files.hpp"
#include "locate/words.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::array<std::string_view, 12> sign_options{"--symptom",  "--no-symptom", "--looked",   "--code",
                                                        "--repaired", "--thawed",     "--zone",     "--state",
                                                        "--meter",    "--unplugged",  "--ran-well", "--cannot-reach"};

constexpr std::string_view not_yet_written = "new ";

/// The entries as a book would give them, so that a call can be told before it is written.
job::ServiceCall call_of(std::vector<job::Entry> entries, std::span<const job::NewEntry> more) {
  for (const job::NewEntry& entry : more)
    entries.push_back({std::string(not_yet_written) + std::to_string(entries.size()),
                       std::string(name_of(entry.form)),
                       {},
                       {},
                       {},
                       {},
                       {},
                       entry.content});
  return job::told(entries);
}

/// Throws InputError where a word of them names what the appliance does not have, or two contradict each other.
void refuse_words(const Arguments& words, const Appliance& appliance) {
  UnitPreferences units;
  (void)typed_site(words, appliance, units);
  (void)typed_signs(words, appliance);
  (void)typed_settings(words, appliance);
}

/// What is new is held against the appliance; where that is new, all that was said. What was right once and names
/// nothing any more bars nothing: the search passes it over, and says so.
void refuse_wrong_words(const std::vector<job::Entry>& before, std::span<const job::NewEntry> more,
                        const Environment& environment) {
  const job::ServiceCall call = call_of(before, more);
  for (const job::EvidenceWord& word : call.evidence)
    if (word.option == "--meter" && word.entry.starts_with(not_yet_written))
      (void)chosen_meter(environment, word.file.empty() ? word.word : word.file);
  if (!call.has_appliance()) return;
  const bool is_new_appliance = std::any_of(
      more.begin(), more.end(), [](const job::NewEntry& entry) { return entry.form == job::EntryForm::appliance; });
  const Appliance appliance = appliance_of(call, environment);
  const Arguments words = locate_words_of(is_new_appliance ? call : call_of({}, more));
  refuse_words(words, appliance);
  refuse_words(words_for(appliance, locate_words_of(call)), appliance);
  const auto unreachable = words.options.find("--cannot-reach");
  if (unreachable == words.options.end()) return;
  for (const std::string& id : unreachable->second)
    if (!test_point_named(appliance, id))
      throw InputError("the appliance has no test point " + ohmwright::quoted(id) + "; see: ohmwright appliance show");
}

/// Of one command: what is said of a symptom later stands over what was said before.
void refuse_symptom_that_is_and_is_not(const Arguments& arguments) {
  const auto is_so = arguments.options.find("--symptom");
  const auto is_not = arguments.options.find("--no-symptom");
  if (is_so == arguments.options.end() || is_not == arguments.options.end()) return;
  for (const std::string& symptom : is_not->second)
    if (std::find(is_so->second.begin(), is_so->second.end(), symptom) != is_so->second.end())
      throw InputError(ohmwright::quoted(symptom) +
                       " is said to be so (--symptom) and not to be so (--no-symptom); leave one out");
}

}  // namespace

job::NewEntry sign_entry(std::string_view option, std::string_view word) {
  job::ContentWriter content;
  content.text("option", option).text("word", word);
  if (option == "--meter" && is_path(word)) content.json("file", file_text(read_document(std::string(word)).root));
  return {job::EntryForm::evidence, content.content()};
}

std::vector<job::NewEntry> sign_entries(const Arguments& arguments) {
  refuse_zones_stated_twice(arguments);
  refuse_symptom_that_is_and_is_not(arguments);
  std::vector<job::NewEntry> entries;
  for (const std::string_view option : sign_options) {
    const auto given = arguments.options.find(option);
    if (given == arguments.options.end()) continue;
    if (given->second.empty()) entries.push_back(sign_entry(option, {}));
    for (const std::string& word : given->second) entries.push_back(sign_entry(option, word));
  }
  return entries;
}

void refuse_signs_that_say_nothing(std::span<const job::NewEntry> entries, const Arguments& /*arguments*/,
                                   const Environment& environment) {
  refuse_wrong_words({}, entries, environment);
}

int note_sign(const Arguments& arguments, Environment& environment) {
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  if (!arguments.operands.empty())
    throw InputError("job sign takes options, got " + ohmwright::quoted(arguments.operands.front()) +
                     "; such as --symptom frost-whole-coil");
  std::vector<job::NewEntry> entries;
  if (arguments.has("--appliance")) entries.push_back(appliance_entry(arguments.value("--appliance"), environment));
  for (job::NewEntry& entry : sign_entries(arguments)) entries.push_back(std::move(entry));
  if (entries.empty())
    throw InputError("job sign was told nothing; such as: ohmwright job sign --symptom frost-whole-coil");
  for (job::NewEntry& entry : entries) entry.happened = time_happened(arguments);
  refuse_wrong_words(job.entries, entries, environment);
  const std::size_t count = entries.size();
  write_and_end_unsafe_wait(job, std::move(entries), environment);
  const Sentences say{UnitPreferences{}};
  environment.out << paragraph(
      say(OHMWRIGHT_TEXT("Noted: {count}. Go on with: ohmwright job next"), {{"count", std::to_string(count)}}),
      environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
