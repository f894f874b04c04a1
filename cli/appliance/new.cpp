#include "appliance/new.hpp"

#include <iostream>
#include <ostream>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "output.hpp"

namespace ohmwright::cli {

namespace {

KitAnswers typed_answers(const Arguments& arguments) {
  KitAnswers answers;
  const auto typed = arguments.options.find("--answer");
  if (typed == arguments.options.end()) return answers;
  for (const std::string& word : typed->second) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0)
      throw InputError("--answer takes QUESTION=CHOICE, such as volts=120, got " + ohmwright::quoted(word));
    if (!answers.emplace(word.substr(0, equals), word.substr(equals + 1)).second)
      throw InputError("the question " + ohmwright::quoted(word.substr(0, equals)) + " is answered twice");
  }
  return answers;
}

/// Asks until a digit is typed; false when the input has ended.
bool ask(const KitQuestion& question, std::istream& in, Environment& environment, const Sentences& say,
         KitAnswers& answers) {
  environment.err << '\n' << paragraph(say(question.asks), environment.page.width);
  for (std::size_t i = 0; i < question.choices.size(); ++i)
    environment.err << paragraph(say(question.choices[i].title), environment.page.width,
                                 "  " + std::to_string(i + 1) + "  ", "     ");
  for (;;) {
    environment.err << "> " << std::flush;
    std::string line;
    if (!std::getline(in, line)) return false;
    const std::size_t digit = line.size() == 1 && line[0] >= '1' ? static_cast<std::size_t>(line[0] - '1') : 9;
    if (digit < question.choices.size()) {
      answers[question.id] = question.choices[digit].id;
      return true;
    }
    environment.err << paragraph(
        say(OHMWRIGHT_TEXT("Type a digit from 1 to {last}."), {{"last", std::to_string(question.choices.size())}}),
        environment.page.width);
  }
}

}  // namespace

Kit shipped_kit(const Environment& environment) {
  return Kit(read_document((environment.locations.appliances / "kits" / "frost-free.json").string()));
}

int new_appliance(const Arguments& arguments, Environment& environment) {
  const Kit kit = shipped_kit(environment);
  const Sentences say{UnitPreferences{}};
  KitAnswers answers = typed_answers(arguments);
  (void)kit.build(answers);  // refuses answers that are not there before anything is asked
  for (const KitQuestion& question : kit.questions())
    if (answers.count(question.id) == 0 && !ask(question, std::cin, environment, say, answers)) break;
  const std::string text = file_text(kit.build(answers));
  const Appliance appliance =
      read_appliance(parse_document_to_check(text, "the generic appliance"), environment.registry);
  for (const ApplianceFinding& finding : check_appliance(appliance))
    if (is_wrong(finding.form))
      throw Error(ErrorCategory::internal, "the kit builds an appliance that is to be mended");
  deliver(text, arguments, environment);
  environment.err << '\n';
  for (const std::string& note : kit.notes(answers))
    environment.err << paragraph(say(note), environment.page.width, "  - ", "    ");
  if (arguments.has("--out"))
    environment.err << say(OHMWRIGHT_TEXT("Written. Go on with:")) << "\n  ohmwright locate "
                    << shell_word(arguments.value("--out")) << '\n';
  return exit_done;
}

}  // namespace ohmwright::cli
