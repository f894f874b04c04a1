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
#include "job/appliance.hpp"
#include "job/phone.hpp"
#include "job/signs.hpp"
#include "job/talk.hpp"
#include "locate/words.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

/// Option under which an answer of the kit for generic appliances stands in the book; no word of `locate`.
constexpr std::string_view kit_answer = "kit";

}  // namespace

bool CallTalk::ask_phone() {
  const PhoneQuestion* question = next_phone_question(job_.call);
  if (question == nullptr) return false;
  const std::optional<std::string> answer = ask_phone_question(*question, std::cin, environment_, say_);
  if (!answer) {
    stopped_ = true;
    line(say_(OHMWRIGHT_TEXT("Stopped. All answers are in the book; ohmwright job goes on here.")));
    return true;
  }
  keep({phone_entry(std::string(question->id), *answer)});
  if (const std::string warning = phone_warning(question->id, *answer, say_); !warning.empty()) line(warning);
  if (next_phone_question(job_.call) == nullptr) environment_.out << phone_advice(job_.call, say_, environment_.page);
  return true;
}

void CallTalk::ask_appliance() {
  std::vector<Choice> choices{{say_(OHMWRIGHT_TEXT("a refrigerator or freezer of which there is no file")),
                               [this] { note_stage(job::Stage::generic_appliance); }}};
  const std::string folder = environment_.locations.appliances.string();
  for (const std::string& name : names_in_folder(folder))
    choices.push_back({text_of(read_document(named_file(folder, name, "appliance")).root, "title"),
                       [this, name] { keep({appliance_entry(name, environment_)}); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("another one, of which there is a file: type its name")), [this] {
                       const auto file = typed_words(say_(OHMWRIGHT_TEXT("File of the appliance")));
                       if (!file) return;
                       try {
                         keep({appliance_entry(*file, environment_)});
                       } catch (const Error& error) {
                         if (error.category() != ErrorCategory::input) throw;
                         line(refusal_text(error));
                       }
                     }});
  choose(say_(OHMWRIGHT_TEXT("Which appliance is it, or which comes nearest?")), choices);
}

KitAnswers CallTalk::kit_answers() const {
  KitAnswers answers;
  for (const job::EvidenceWord& word : job_.call.evidence)
    if (word.option == kit_answer)
      if (const std::size_t equals = word.word.find('='); equals != std::string::npos)
        answers[word.word.substr(0, equals)] = word.word.substr(equals + 1);
  return answers;
}

void CallTalk::take_from_phone(KitAnswers& answers) const {
  const auto label = job_.call.phone.find("refrigerant");
  if (label != job_.call.phone.end()) {
    const std::string& name = label->second;
    answers.try_emplace("refrigerant", !refrigerant_may_burn(name)      ? "non-flammable"
                                       : refrigerant_safety_class(name) ? "flammable"
                                                                        : "unknown");
  }
  const auto volts = job_.call.phone.find("volts");
  if (volts == job_.call.phone.end() || volts->second == "unknown") return;
  constexpr double between_both_supplies = 170.0;
  const double volt = parse_stated_value(volts->second, Dimension::voltage,
                                         {.default_unit = Unit::named("V", Dimension::voltage), .or_else = {}})
                          .value.value_in_si();
  answers.try_emplace("volts", volt < between_both_supplies ? "120" : "230");
}

void CallTalk::ask_kit() {
  const Kit kit = shipped_kit(environment_);
  KitAnswers answers = kit_answers();
  take_from_phone(answers);
  for (const KitQuestion& question : kit.questions()) {
    if (answers.count(question.id) != 0) continue;
    std::vector<Choice> choices;
    for (const KitChoice& choice : question.choices)
      choices.push_back({say_(choice.title), [this, &question, &choice] {
                           keep({sign_entry(kit_answer, question.id + "=" + choice.id)});
                         }});
    return choose(say_(question.asks), choices);
  }
  keep({appliance_entry_of_text(file_text(kit.build(answers)), "the generic appliance", environment_)});
  for (const std::string& note : kit.notes(answers)) line("- " + say_(note), "  ");
}

void CallTalk::ask_symptoms() {
  const Appliance appliance = appliance_of(job_.call, environment_);
  const std::vector<std::string> known = symptoms_of(appliance);
  environment_.out << '\n';
  line(say_(job_.call.cools()
                ? OHMWRIGHT_TEXT("What do you see? Type the numbers, with blanks between them. Leave the ice as it is "
                                 "until you have looked.")
                : OHMWRIGHT_TEXT("What do you see? Type the numbers, with blanks between them.")));
  offer_number(1, say_(OHMWRIGHT_TEXT("none of these")));
  for (std::size_t i = 0; i < known.size(); ++i) offer_number(i + 2, symptom_text(appliance, known[i], say_));
  offer_number(0, say_(OHMWRIGHT_TEXT("stop here; it goes on here")));
  while (const std::optional<std::string> answer = typed("")) {
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
    if (understood) return keep(entries);
    line(say_(OHMWRIGHT_TEXT("Type one of the numbers, or several with blanks between them.")));
  }
}

void CallTalk::offer_number(std::size_t number, const std::string& text) {
  const std::string digits = std::to_string(number);
  environment_.out << paragraph(text, environment_.page.width,
                                std::string(4 - std::min<std::size_t>(4, digits.size()), ' ') + digits + "  ",
                                "      ");
}

}  // namespace ohmwright::cli
