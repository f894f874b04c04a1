#include "help.hpp"

#include <algorithm>
#include <iterator>
#include <vector>

#include <ohmwright/quantity/message.hpp>

#include "command_line.hpp"

namespace ohmwright::cli {

namespace {

/// A name and what it means: in two columns where the page is wide enough, else below each other.
std::string row(const std::string& name, const std::string& meaning, std::size_t name_width, int width) {
  constexpr int narrow = 60;
  if (width < narrow) return "  " + name + "\n" + paragraph(meaning, width, "      ", "      ");
  std::string first = "  " + name;
  first += std::string(name_width - std::min(name_width, name.size()) + 2, ' ');
  return paragraph(meaning, width, first, std::string(name_width + 4, ' '));
}

std::string with_value(const OptionSpec& option) {
  std::string name(option.name);
  if (!option.value.empty()) name += " " + std::string(option.value);
  return name;
}

std::string operand_text(const OperandSpec& operand) {
  std::string text(operand.name);
  if (operand.repeats) text += "...";
  return operand.required ? text : "[" + text + "]";
}

std::string usage(const VerbSpec& verb) {
  std::string line = "ohmwright " + std::string(verb.name);
  for (const OperandSpec& operand : verb.operands) line += " " + operand_text(operand);
  return line + (verb.takes_conditions ? " [--CONDITION VALUE...] [OPTIONS]" : " [OPTIONS]");
}

/// A command as it is typed; where the page is too narrow, over several lines that a shell takes as one.
std::string command(std::string_view words, int width) {
  const std::string lines = paragraph(words, width - 2, "  ", "      ");
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i] == '\n' && i + 1 < lines.size()) text += " \\";
    text += lines[i];
  }
  return text;
}

std::string option_rows(std::span<const OptionSpec> options, const Sentences& sentences, int width) {
  std::size_t name_width = 0;
  for (const OptionSpec& option : options) name_width = std::max(name_width, with_value(option).size());
  std::string text;
  for (const OptionSpec& option : options) text += row(with_value(option), sentences(option.help), name_width, width);
  return text;
}

/// How circumstances of readings are typed.
std::string condition_rows(const VerbSpec& verb, const Sentences& sentences, int width) {
  return "\n" +
         paragraph(sentences(OHMWRIGHT_TEXT("What is said of readings (after a group of readings it holds for that "
                                            "group, before the first for all; conditions, --lead-off, --in-circuit "
                                            "and --leads also for earlier groups that were given none, --unplugged "
                                            "and --proved-dead for earlier ohms):")),
                   width) +
         row("--CONDITION VALUE",
             sentences(OHMWRIGHT_TEXT("A condition of the kind, such as --at 23C; ± gives its doubt: "
                                      "--at '23C ± 1K' (see: ohmwright kinds KIND)")),
             17, width) +
         option_rows(verb.circumstances, sentences, width);
}

/// Options of the verb that the action takes, in the verb's order.
std::vector<OptionSpec> options_of_action(const VerbSpec& verb, const ActionSpec& action) {
  std::vector<OptionSpec> own;
  std::copy_if(verb.options.begin(), verb.options.end(), std::back_inserter(own), [&](const OptionSpec& option) {
    return std::find(action.options.begin(), action.options.end(), option.name) != action.options.end();
  });
  return own;
}

std::string option_section(std::span<const OptionSpec> options, const Sentences& sentences, int width) {
  return options.empty() ? std::string()
                         : "\n" + sentences(OHMWRIGHT_TEXT("Options")) + "\n" + option_rows(options, sentences, width);
}

std::string ending(std::string_view example, const Sentences& sentences, int width) {
  return "\n" + sentences(OHMWRIGHT_TEXT("Options of every verb")) + "\n" +
         option_rows(common_options(), sentences, width) + "\n" + sentences(OHMWRIGHT_TEXT("Example")) + "\n" +
         command(example, width);
}

}  // namespace

std::string program_help(std::span<const VerbSpec> verbs, const Sentences& sentences, const PageStyle& style) {
  std::string text =
      paragraph(sentences(OHMWRIGHT_TEXT(
                    "ohmwright tells whether an appliance part is within its limits, how sure that is, and what "
                    "would make it surer.")),
                style.width);
  text += "\n" + sentences(OHMWRIGHT_TEXT("Usage")) + "\n  ohmwright VERB ...\n\n" +
          sentences(OHMWRIGHT_TEXT("Verbs")) + "\n";
  std::size_t name_width = 0;
  for (const VerbSpec& verb : verbs) name_width = std::max(name_width, verb.name.size());
  for (const VerbSpec& verb : verbs)
    text += row(std::string(verb.name), sentences(verb.summary), name_width, style.width);
  text += "\n" + sentences(OHMWRIGHT_TEXT("Start with")) + "\n" +
          command("ohmwright check thermistor --lead-off 11.0k --at 23C --ratings ntc-10k-b3977", style.width);
  text += "  ohmwright check --help\n  ohmwright --version\n";
  return text;
}

std::string verb_help(const VerbSpec& verb, const Sentences& sentences, const PageStyle& style) {
  std::string text = paragraph(sentences(verb.summary), style.width);
  text += "\n" + sentences(OHMWRIGHT_TEXT("Usage")) + "\n" + paragraph(usage(verb), style.width, "  ", "      ");
  if (!verb.operands.empty()) {
    text += "\n";
    std::size_t name_width = 0;
    for (const OperandSpec& operand : verb.operands) name_width = std::max(name_width, operand.name.size());
    for (const OperandSpec& operand : verb.operands)
      text += row(std::string(operand.name), sentences(operand.help), name_width, style.width);
  }
  if (!verb.actions.empty())
    text +=
        "\n" + paragraph(sentences(OHMWRIGHT_TEXT("One action alone, with its own options and an example: ohmwright "
                                                  "{verb} ACTION --help"),
                                   {{"verb", std::string(verb.name)}}),
                         style.width);
  if (verb.takes_conditions) text += condition_rows(verb, sentences, style.width);
  return text + option_section(verb.options, sentences, style.width) + ending(verb.example, sentences, style.width);
}

std::string action_help(const VerbSpec& verb, const ActionSpec& action, const Sentences& sentences,
                        const PageStyle& style) {
  std::string line = "ohmwright " + std::string(verb.name) + " " + std::string(action.name);
  if (!action.words.empty()) line += " " + std::string(action.words);
  line += action.takes_conditions ? " [--CONDITION VALUE...] [OPTIONS]" : " [OPTIONS]";
  std::string text = paragraph(sentences(action.summary), style.width);
  text += "\n" + sentences(OHMWRIGHT_TEXT("Usage")) + "\n" + paragraph(line, style.width, "  ", "      ");
  if (action.takes_conditions) text += condition_rows(verb, sentences, style.width);
  return text + option_section(options_of_action(verb, action), sentences, style.width) +
         ending(action.example, sentences, style.width);
}

const ActionSpec* action_of(const VerbSpec& verb, const Arguments& arguments) {
  if (arguments.operands.empty()) return nullptr;
  const auto found = std::find_if(verb.actions.begin(), verb.actions.end(),
                                  [&](const ActionSpec& action) { return action.name == arguments.operands.front(); });
  return found == verb.actions.end() ? nullptr : &*found;
}

}  // namespace ohmwright::cli
