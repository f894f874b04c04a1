#include "man_page.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

#include "command_line.hpp"

namespace ohmwright::cli {

namespace {

/// Text as roff takes it: no backslash or hyphen of its own, no line that looks like a request.
std::string roff(std::string_view text) {
  std::string escaped;
  if (!text.empty() && (text.front() == '.' || text.front() == '\'')) escaped = "\\&";
  for (const char letter : text) {
    if (letter == '\\')
      escaped += "\\e";
    else if (letter == '-')
      escaped += "\\-";
    else
      escaped += letter;
  }
  return escaped;
}

std::string upper(std::string_view text) {
  std::string large(text);
  std::transform(large.begin(), large.end(), large.begin(),
                 [](unsigned char letter) { return static_cast<char>(std::toupper(letter)); });
  return large;
}

std::string head(std::string_view name, std::string_view version, std::string_view summary) {
  return ".TH " + upper(name) + " 1 \"\" \"ohmwright " + std::string(version) + "\"\n.SH NAME\n" + roff(name) +
         " \\- " + roff(summary) + '\n';
}

std::string options_section(std::string_view title, std::span<const OptionSpec> options) {
  if (options.empty()) return {};
  std::string text = ".SH " + std::string(title) + '\n';
  for (const OptionSpec& option : options) {
    text += ".TP\n.B " + roff(option.name) + '\n';
    if (!option.value.empty()) text.insert(text.size() - 1, " \\fI" + roff(option.value) + "\\fR");
    text += roff(option.help) + '\n';
  }
  return text;
}

constexpr std::string_view exits =
    ".SH \"EXIT STATUS\"\n0 in spec, or done; 1 out of spec, or something to mend; 3 can't tell yet; 2 input or usage "
    "refused; 4 a plugin refused or failed; 70 a mistake of the program.\n";

}  // namespace

std::string program_manual(std::span<const VerbSpec> verbs, std::string_view version) {
  std::string text = head("ohmwright", version, "judge parts of appliances and find the one at fault");
  text +=
      ".SH SYNOPSIS\n.B ohmwright\n.I VERB\n[...]\n.SH DESCRIPTION\nTells whether an appliance part is within its "
      "limits, how sure that is, and what would make it surer. Cautions come first; local codes and licensed "
      "practice come before them.\n.SH VERBS\n";
  for (const VerbSpec& verb : verbs)
    text += ".TP\n.BR ohmwright\\-" + roff(verb.name) + " (1)\n" + roff(verb.summary) + '\n';
  text += options_section("\"OPTIONS OF EVERY VERB\"", common_options());
  text +=
      ".SH ENVIRONMENT\n.TP\n.B OHMWRIGHT_PLUGIN_PATH\nFurther folders of plugins, separated by colons.\n.TP\n.B "
      "OHMWRIGHT_ONLY_ALLOWED_PLUGINS\nWhere it is 1, nothing from outside the installation is taken but what is on "
      "the "
      "list of allowed plugins.\n.TP\n.B "
      "XDG_CONFIG_HOME\nIts folder ohmwright holds the list of allowed plugins; default ~/.config.\n.TP\n.B "
      "NO_COLOR\nNo colour where it is set.\n";
  return text + std::string(exits);
}

std::string verb_manual(const VerbSpec& verb, std::string_view version) {
  std::string text = head("ohmwright-" + std::string(verb.name), version, verb.summary);
  text += ".SH SYNOPSIS\n.B ohmwright " + roff(verb.name) + '\n';
  for (const OperandSpec& operand : verb.operands) {
    const std::string name = "\\fI" + roff(operand.name) + "\\fR" + (operand.repeats ? "..." : "");
    text += (operand.required ? name : "[" + name + "]") + '\n';
  }
  text += verb.takes_conditions ? "[\\-\\-CONDITION VALUE...] [OPTIONS]\n" : "[OPTIONS]\n";
  text += ".SH DESCRIPTION\n" + roff(verb.summary) + ".\n";
  for (const OperandSpec& operand : verb.operands)
    text += ".TP\n.I " + roff(operand.name) + '\n' + roff(operand.help) + '\n';
  text += options_section("\"CIRCUMSTANCES OF READINGS\"", verb.circumstances);
  text += options_section("OPTIONS", verb.options);
  text += options_section("\"OPTIONS OF EVERY VERB\"", common_options());
  text += ".SH EXAMPLE\n.nf\n" + roff(verb.example) + "\n.fi\n";
  return text + std::string(exits) + ".SH \"SEE ALSO\"\n.BR ohmwright (1)\n";
}

}  // namespace ohmwright::cli
