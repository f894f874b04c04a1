#include "job/talk_intake.hpp"

#include <algorithm>
#include <charconv>
#include <iostream>
#include <ostream>
#include <sstream>

#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/safety/refrigerant.hpp>

#include "appliance/new.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/phone.hpp"
#include "job/signs.hpp"
#include "locate/words.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

/// Option under which an answer of the kit for generic appliances stands in the book; no word of `locate`.
constexpr std::string_view kit_answer = "kit";

}  // namespace

namespace {

/// The job that was written to last, where it is closed: somebody may call back on it.
std::optional<job::JobLine> closed_last(const job::JobBook& book) {
  std::vector<job::JobLine> last = book.list({}, 1);
  const auto state = last.empty() ? std::nullopt : job::job_state_named(last.front().state);
  if (!state || !job::is_closed(*state)) return std::nullopt;
  return std::move(last.front());
}

}  // namespace

void TalkIntake::choose_job(const std::optional<job::JobLine>& open, const std::optional<job::JobLine>& closed,
                            bool& begins) {
  if (!open && !closed) {
    begins = true;
    return;
  }
  const auto named = [this](std::string_view english, const job::JobLine& line) {
    return say_(english, {{"number", std::to_string(line.number)}, {"title", printable(line.title)}});
  };
  std::vector<TalkScreen::Choice> choices;
  if (open)
    choices.push_back({named(OHMWRIGHT_TEXT("go on with job {number}: {title}"), *open),
                       [&] { job_.arguments().options["--job"] = {std::to_string(open->number)}; }});
  choices.push_back({say_(OHMWRIGHT_TEXT("a new call")), [&] { begins = true; }});
  if (closed)
    choices.push_back(
        {named(OHMWRIGHT_TEXT("another visit for job {number}, which was closed: {title}"), *closed), [&] {
           job_.arguments().options["--job"] = {std::to_string(closed->number)};
           job_.again();
           job_.act(visit_again, {});
         }});
  screen_.choose(say_(OHMWRIGHT_TEXT("Which call is it?")), choices);
}

bool TalkIntake::take_up() {
  const std::unique_ptr<job::JobBook> book = open_book(job_.arguments(), true);
  const std::optional<job::JobLine> open = book->at_hand();
  bool begin = false;
  if (!job_.arguments().has("--job")) choose_job(open, closed_last(*book), begin);
  if (screen_.has_stopped()) return false;
  if (begin) {
    screen_.line(say_(OHMWRIGHT_TEXT("A new call. What is it, in a few words? (0 stops)")));
    std::optional<std::string> title = screen_.typed("");
    while (title && title->empty()) title = screen_.typed("");
    if (!title) return false;
    std::vector<job::NewEntry> entries{{job::EntryForm::opened, job::ContentWriter().text("title", *title).content()}};
    if (job_.arguments().has("--appliance"))
      entries.push_back(appliance_entry(job_.arguments().value("--appliance"), environment_));
    const std::int64_t number = book->open_job(entries);
    job_.arguments().options["--job"] = {std::to_string(number)};
  }
  job_.again();
  say_which(job_.at_hand(), environment_);
  if (!job_.call().has_appliance() && job_.arguments().has("--appliance"))
    job_.keep({appliance_entry(job_.arguments().value("--appliance"), environment_)});
  job_.arguments().options.erase("--appliance");  // answers are actions that do not take it
  return true;
}

bool TalkIntake::ask_phone() {
  const PhoneQuestion* question = next_phone_question(job_.call());
  if (question == nullptr) return false;
  const std::optional<std::string> answer = ask_phone_question(*question, std::cin, environment_, say_);
  if (!answer) {
    screen_.stop();
    return true;
  }
  job_.keep({phone_entry(std::string(question->id), *answer)});
  if (const std::string warning = phone_warning(question->id, *answer, say_); !warning.empty()) screen_.line(warning);
  if (next_phone_question(job_.call()) == nullptr)
    environment_.out << phone_advice(job_.call(), say_, environment_.page);
  return true;
}

void TalkIntake::ask_appliance() {
  std::vector<TalkScreen::Choice> choices{{say_(OHMWRIGHT_TEXT("a refrigerator or freezer of which there is no file")),
                                           [this] { job_.note_stage(job::Stage::generic_appliance); }}};
  const std::string folder = environment_.locations.appliances.string();
  for (const std::string& name : names_in_folder(folder))
    choices.push_back({text_of(read_document(named_file(folder, name, "appliance")).root, "title"),
                       [this, name] { job_.keep({appliance_entry(name, environment_)}); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("another one, of which there is a file: type its name")), [this] {
                       const auto file = screen_.typed_words(say_(OHMWRIGHT_TEXT("File of the appliance")));
                       if (!file) return;
                       try {
                         job_.keep({appliance_entry(*file, environment_)});
                       } catch (const Error& error) {
                         if (error.category() != ErrorCategory::input) throw;
                         screen_.line(refusal_text(error));
                       }
                     }});
  screen_.choose(say_(OHMWRIGHT_TEXT("Which appliance is it, or which comes nearest?")), choices);
}

KitAnswers TalkIntake::kit_answers() const {
  KitAnswers answers;
  for (const job::EvidenceWord& word : job_.call().evidence)
    if (word.option == kit_answer)
      if (const std::size_t equals = word.word.find('='); equals != std::string::npos)
        answers[word.word.substr(0, equals)] = word.word.substr(equals + 1);
  return answers;
}

void TalkIntake::take_from_phone(KitAnswers& answers) const {
  const auto label = job_.call().phone.find("refrigerant");
  if (label != job_.call().phone.end()) {
    const std::string& name = label->second;
    answers.try_emplace("refrigerant", !refrigerant_may_burn(name)      ? "non-flammable"
                                       : refrigerant_safety_class(name) ? "flammable"
                                                                        : "unknown");
  }
  const auto volts = job_.call().phone.find("volts");
  if (volts == job_.call().phone.end() || volts->second == "unknown") return;
  constexpr double between_both_supplies = 170.0;
  const double volt = parse_stated_value(volts->second, Dimension::voltage,
                                         {.default_unit = Unit::named("V", Dimension::voltage), .or_else = {}})
                          .value.value_in_si();
  answers.try_emplace("volts", volt < between_both_supplies ? "120" : "230");
}

void TalkIntake::ask_kit() {
  const Kit kit = shipped_kit(environment_);
  KitAnswers answers = kit_answers();
  take_from_phone(answers);
  for (const KitQuestion& question : kit.questions()) {
    if (answers.count(question.id) != 0) continue;
    std::vector<TalkScreen::Choice> choices;
    for (const KitChoice& choice : question.choices)
      choices.push_back({say_(choice.title), [this, &question, &choice] {
                           job_.keep({sign_entry(kit_answer, question.id + "=" + choice.id)});
                         }});
    return screen_.choose(say_(question.asks), choices);
  }
  job_.keep({appliance_entry_of_text(file_text(kit.build(answers)), "the generic appliance", environment_)});
  for (const std::string& note : kit.notes(answers)) screen_.line("- " + say_(note), "  ");
}

void TalkIntake::ask_symptoms() {
  const Appliance appliance = appliance_of(job_.call(), environment_);
  const std::vector<std::string> known = symptoms_of(appliance);
  environment_.out << '\n';
  screen_.line(
      say_(job_.call().cools()
               ? OHMWRIGHT_TEXT("What do you see? Type the numbers, with blanks between them. Leave the ice as it is "
                                "until you have looked.")
               : OHMWRIGHT_TEXT("What do you see? Type the numbers, with blanks between them.")));
  screen_.offer_number(1, say_(OHMWRIGHT_TEXT("none of these")));
  for (std::size_t i = 0; i < known.size(); ++i) screen_.offer_number(i + 2, symptom_text(appliance, known[i], say_));
  screen_.offer_number(0, say_(OHMWRIGHT_TEXT("stop here; it goes on here")));
  while (const std::optional<std::string> answer = screen_.typed("")) {
    std::vector<job::NewEntry> entries;
    std::istringstream words(*answer);
    bool understood = !answer->empty();
    for (std::string word; words >> word;) {
      std::size_t number = 0;
      const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
      understood = understood && error == std::errc() && end == word.data() + word.size() && number > 0 &&
                   number < known.size() + 2;
      if (understood && number > 1) entries.push_back(sign_entry("--symptom", known[number - 2]));
    }
    entries.push_back(
        {job::EntryForm::stage, job::ContentWriter().text("stage", name_of(job::Stage::looked)).content()});
    if (understood) return job_.keep(entries);
    screen_.line(say_(OHMWRIGHT_TEXT("Type one of the numbers, or several with blanks between them.")));
  }
}

bool TalkIntake::was_looked_at() const {
  const bool is_call_back = job_.call().repairs_closed > 0 && !job_.call().has_new_repair();
  return std::any_of(job_.call().stages.begin(), job_.call().stages.end(), [&](const job::DoneStage& done) {
    return done.stage == job::Stage::looked && (!is_call_back || done.visit == job_.call().visits);
  });
}

}  // namespace ohmwright::cli
