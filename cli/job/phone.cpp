#include "job/phone.hpp"

#include <algorithm>
#include <istream>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/safety/refrigerant.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

const PhoneQuestion& phone_question_named(const std::string& id) {
  std::vector<std::string> known;
  for (const PhoneQuestion& question : phone_questions()) {
    if (question.id == id) return question;
    known.emplace_back(question.id);
  }
  throw InputError("the phone has no question " + ohmwright::quoted(id) + did_you_mean(id, known) +
                   "; it has: " + listed(known));
}

/// Of a flammable refrigerant, or one that may be.
bool may_burn(const job::ServiceCall& call) {
  const auto label = call.phone.find("refrigerant");
  if (label == call.phone.end() || label->second == "unknown")
    return call.cools() && call.refrigerant != "non-flammable";
  return refrigerant_may_burn(label->second);
}

/// A slip of the keys, or a digit typed to a question that has none to choose, is no value of an outlet or a room.
void refuse_bad_value(std::string_view question, const std::string& answer) {
  constexpr double least_volts = 80.0;
  constexpr double most_volts = 500.0;
  constexpr double coldest_kelvin = 233.15;
  constexpr double warmest_kelvin = 333.15;
  if (question == "volts") {
    const double volts = parse_stated_value(answer, Dimension::voltage,
                                            {.default_unit = Unit::named("V", Dimension::voltage), .or_else = {}})
                             .value.value_in_si();
    if (volts < least_volts || volts > most_volts)
      throw InputError("volts takes those of an outlet, from 80 to 500 V, got " + ohmwright::quoted(answer));
  }
  if (question == "room") {
    const double kelvin = parse_stated_value(answer, Dimension::temperature).value.value_in_si();
    if (kelvin < coldest_kelvin || kelvin > warmest_kelvin)
      throw InputError("room takes a temperature from -40 to 60 degC, got " + ohmwright::quoted(answer));
  }
}

/// A label names a refrigerant by a number, or by a name that the table of them has.
void refuse_no_refrigerant(const std::string& answer) {
  const bool has_number = answer.find_first_of("0123456789") != std::string::npos;
  if (!has_number && !refrigerant_safety_class(answer))
    throw InputError(
        "refrigerant takes what the label names, such as R-600a, or other (one that does not burn) or "
        "unknown, got " +
        ohmwright::quoted(answer));
}

}  // namespace

const std::vector<PhoneQuestion>& phone_questions() {
  static const std::vector<PhoneQuestion> questions{
      {"tingles",
       OHMWRIGHT_TEXT("Does anybody feel it tingle when it is touched?"),
       {{"no", OHMWRIGHT_TEXT("no")}, {"yes", OHMWRIGHT_TEXT("yes")}, {"unknown", OHMWRIGHT_TEXT("nobody knows")}},
       false,
       true},
      {"burning_smell",
       OHMWRIGHT_TEXT("Does it smell burnt?"),
       {{"no", OHMWRIGHT_TEXT("no")}, {"yes", OHMWRIGHT_TEXT("yes")}, {"unknown", OHMWRIGHT_TEXT("nobody knows")}},
       false,
       true},
      {"refrigerant",
       OHMWRIGHT_TEXT("Which refrigerant does its label name?"),
       {{"R-600a", OHMWRIGHT_TEXT("R-600a (flammable)")},
        {"R-290", OHMWRIGHT_TEXT("R-290 (flammable)")},
        {"R-134a", OHMWRIGHT_TEXT("R-134a")},
        {"other", OHMWRIGHT_TEXT("another one that is not flammable")},
        {"unknown", OHMWRIGHT_TEXT("nobody can read it")}},
       true},
      {"frost",
       OHMWRIGHT_TEXT("Where is frost to be seen?"),
       {{"whole", OHMWRIGHT_TEXT("all over the back of the freezer")},
        {"one-end", OHMWRIGHT_TEXT("at one end only")},
        {"none", OHMWRIGHT_TEXT("nowhere")},
        {"unknown", OHMWRIGHT_TEXT("nobody looked")}},
       true},
      {"volts", OHMWRIGHT_TEXT("Volts of the outlet, as measured or as on the rating plate (such as 118)"), {}},
      {"room", OHMWRIGHT_TEXT("Temperature of the room (such as 24C or 75F)"), {}},
      {"tried", OHMWRIGHT_TEXT("What was tried already, in a few words"), {}},
  };
  return questions;
}

const PhoneQuestion* next_phone_question(const job::ServiceCall& call) {
  for (const PhoneQuestion& question : phone_questions())
    if (call.phone.count(std::string(question.id)) == 0 && (call.cools() || !question.is_of_cold)) return &question;
  return nullptr;
}

job::NewEntry phone_entry(const std::string& question, const std::string& answer) {
  const PhoneQuestion& asked = phone_question_named(question);
  std::vector<std::string> ids;
  for (const PhoneQuestion::Choice& choice : asked.choices) ids.emplace_back(choice.id);
  const bool is_of_label = question == "refrigerant";  // a label may name any
  // Said as it stands on the screen.
  for (const PhoneQuestion::Choice& choice : asked.choices)
    if (choice.text == answer && choice.id != answer) return phone_entry(question, std::string(choice.id));
  if (!ids.empty() && !is_of_label && std::find(ids.begin(), ids.end(), answer) == ids.end())
    throw InputError("the answer to " + question + " is one of " + listed(ids) + ", got " + ohmwright::quoted(answer));
  if (answer != "unknown") refuse_bad_value(question, answer);
  if (is_of_label && std::find(ids.begin(), ids.end(), answer) == ids.end()) refuse_no_refrigerant(answer);
  return {job::EntryForm::phone, job::ContentWriter().text(question, answer).content()};
}

std::optional<std::string> typed_line(std::istream& in, Environment& environment, std::string_view prompt) {
  environment.out << prompt << std::flush;
  std::string typed;
  if (!std::getline(in, typed)) {
    environment.out << '\n';
    return std::nullopt;
  }
  const auto blank = [](char letter) { return letter == ' ' || letter == '\t' || letter == '\r'; };
  while (!typed.empty() && blank(typed.back())) typed.pop_back();
  return typed.substr(static_cast<std::size_t>(std::find_if_not(typed.begin(), typed.end(), blank) - typed.begin()));
}

std::optional<std::string> ask_phone_question(const PhoneQuestion& question, std::istream& in, Environment& environment,
                                              const Sentences& say) {
  const int width = environment.page.width;
  environment.out << '\n' << paragraph(say(question.asks), width);
  for (std::size_t i = 0; i < question.choices.size(); ++i)
    environment.out << paragraph(say(question.choices[i].text), width, "  " + std::to_string(i + 1) + "  ", "     ");
  if (question.choices.empty())
    environment.out << paragraph(say(OHMWRIGHT_TEXT("nothing, or nobody knows")), width, "  1  ", "     ");
  environment.out << paragraph(say(OHMWRIGHT_TEXT("stop here; it goes on here")), width, "  0  ", "     ");
  while (const std::optional<std::string> typed = typed_line(in, environment, "> ")) {
    if (*typed == "0") return std::nullopt;
    if (question.choices.empty() && (*typed == "1" || typed->empty())) return "unknown";
    const std::size_t digit =
        typed->size() == 1 ? static_cast<std::size_t>((*typed)[0] - '1') : question.choices.size();
    try {
      std::string answer = digit < question.choices.size() ? std::string(question.choices[digit].id) : *typed;
      (void)phone_entry(std::string(question.id), answer);
      if (digit < question.choices.size() || question.choices.empty()) return answer;
    } catch (const InputError& error) {
      if (question.choices.empty()) {
        environment.out << paragraph(refusal_text(error), width);
        continue;
      }
    }
    environment.out << paragraph(say(OHMWRIGHT_TEXT("Type one of the digits.")), width);
  }
  return std::nullopt;
}

std::string phone_warning(std::string_view question, std::string_view answer, const Sentences& say) {
  if (answer != "yes") return {};
  if (question == "tingles")
    return say(OHMWRIGHT_TEXT(
        "It tingles: nobody touches it; pull the plug or switch its breaker off, and leave it off until its "
        "insulation and earth bond are read."));
  if (question == "burning_smell") return say(OHMWRIGHT_TEXT("It smells burnt: pull the plug, and leave it out."));
  return {};
}

std::string phone_advice(const job::ServiceCall& call, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  std::vector<std::string> at_once;
  for (const auto& [question, answer] : call.phone)
    if (const std::string warning = phone_warning(question, answer, say); !warning.empty()) at_once.push_back(warning);
  if (may_burn(call)) at_once.push_back(say(caution_named("flammable-refrigerant")->english));
  page.section(say(OHMWRIGHT_TEXT("Say on the phone")), at_once);
  std::vector<std::string> ask;
  if (call.cools())
    ask.push_back(say(OHMWRIGHT_TEXT("Leave the ice as it is: what it looks like says where the fault is.")));
  ask.push_back(say(OHMWRIGHT_TEXT("Note what the display shows, and clear nothing.")));
  page.section(say(OHMWRIGHT_TEXT("Ask them")), ask);
  std::vector<std::string> bring{say(
      OHMWRIGHT_TEXT("a meter of CAT II or better, a tester you have proved, a thermometer, an insulation tester"))};
  bring.push_back(say(OHMWRIGHT_TEXT("cut-resistant gloves, towels and a basin, a residual-current adapter")));
  if (call.cools()) {
    bring.push_back(say(OHMWRIGHT_TEXT("crushed ice, salt and bags: to chill a thermostat or a sensor")));
    bring.push_back(say(OHMWRIGHT_TEXT("foil tape, clips, sealed splices of matching gauge")));
  } else {
    bring.push_back(say(OHMWRIGHT_TEXT("sealed splices of matching gauge, crimps for what gets hot")));
  }
  bring.push_back(say(OHMWRIGHT_TEXT("the parts that fail most often here: ohmwright job find lists them")));
  page.section(say(OHMWRIGHT_TEXT("Bring")), bring);
  return page.take();
}

}  // namespace ohmwright::cli
