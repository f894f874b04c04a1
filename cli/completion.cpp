#include "completion.hpp"

#include <string_view>
#include <vector>

#include "command_line.hpp"

namespace ohmwright::cli {

namespace {

std::vector<OptionSpec> options_of(const VerbSpec& verb) {
  std::vector<OptionSpec> all = verb.options;
  all.insert(all.end(), verb.circumstances.begin(), verb.circumstances.end());
  all.insert(all.end(), common_options().begin(), common_options().end());
  return all;
}

std::string in_a_row(const std::vector<std::string_view>& words) {
  std::string row;
  for (const std::string_view word : words) row += (row.empty() ? "" : " ") + std::string(word);
  return row;
}

std::vector<std::string_view> names_of(const std::vector<OptionSpec>& options) {
  std::vector<std::string_view> names;
  for (const OptionSpec& option : options) names.push_back(option.name);
  return names;
}

/// What the first operand can be; empty: anything, or a kind.
std::vector<std::string_view> first_words(const VerbSpec& verb) {
  return verb.operands.empty() ? std::vector<std::string_view>{} : verb.operands.front().choices;
}

bool begins_with_a_kind(const VerbSpec& verb) { return !verb.operands.empty() && verb.operands.front().name == "KIND"; }

/// In single quotes, as every shell takes it.
std::string in_quotes(std::string_view text) {
  std::string word = "'";
  for (const char letter : text) word += letter == '\'' ? "'\\''" : std::string(1, letter);
  return word + "'";
}

constexpr std::string_view list_of_kinds = "ohmwright kinds 2>/dev/null | awk 'NF == 0 {exit} /^[a-z]/'";

/// The heads of the cases below, shared by bash and zsh: `proposed` is what is offered for the word at hand.
std::string proposals(std::span<const VerbSpec> verbs) {
  std::string text = "  case \"$verb:$before\" in\n";
  for (const VerbSpec& verb : verbs)
    for (const OptionSpec& option : options_of(verb))
      if (!option.choices.empty())
        text += "    " + std::string(verb.name) + ":" + std::string(option.name) + ") proposed=\"" +
                in_a_row(option.choices) + "\" ;;\n";
      else if (!option.value.empty())
        text += "    " + std::string(verb.name) + ":" + std::string(option.name) + ") files=yes ;;\n";
  text += "    *)\n      case \"$verb:$place\" in\n";
  for (const VerbSpec& verb : verbs) {
    if (!first_words(verb).empty())
      text += "        " + std::string(verb.name) + ":2) proposed=\"" + in_a_row(first_words(verb)) + "\" ;;\n";
    if (begins_with_a_kind(verb))
      text += "        " + std::string(verb.name) + ":2) proposed=\"$(" + std::string(list_of_kinds) + ")\" ;;\n";
  }
  text += "        *) files=yes ;;\n      esac\n      case \"$verb\" in\n";
  for (const VerbSpec& verb : verbs)
    text += "        " + std::string(verb.name) + ") proposed=\"$proposed " + in_a_row(names_of(options_of(verb))) +
            "\" ;;\n";
  return text + "      esac ;;\n  esac\n";
}

std::string verbs_in_a_row(std::span<const VerbSpec> verbs) {
  std::string row;
  for (const VerbSpec& verb : verbs) row += (row.empty() ? "" : " ") + std::string(verb.name);
  return row + " --help --version";
}

}  // namespace

std::string bash_completion(std::span<const VerbSpec> verbs) {
  return "# Made from the table of verbs of ohmwright.\n_ohmwright() {\n"
         "  local verb=\"${COMP_WORDS[1]}\" word=\"${COMP_WORDS[COMP_CWORD]}\"\n"
         "  local before=\"${COMP_WORDS[COMP_CWORD-1]}\" place=$COMP_CWORD proposed=\"\" files=\"\"\n"
         "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
         "    COMPREPLY=($(compgen -W \"" +
         verbs_in_a_row(verbs) + "\" -- \"$word\"))\n    return\n  fi\n" + proposals(verbs) +
         "  COMPREPLY=($(compgen -W \"$proposed\" -- \"$word\"))\n"
         "  [ -z \"$files\" ] || COMPREPLY+=($(compgen -f -- \"$word\"))\n"
         "}\ncomplete -o filenames -F _ohmwright ohmwright\n";
}

std::string zsh_completion(std::span<const VerbSpec> verbs) {
  return "#compdef ohmwright\n# Made from the table of verbs of ohmwright.\n_ohmwright() {\n"
         "  local verb=\"${words[2]}\" before=\"${words[CURRENT-1]}\" place=$((CURRENT - 1)) files=\"\"\n"
         "  if [ \"$CURRENT\" -eq 2 ]; then\n    compadd -- " +
         verbs_in_a_row(verbs) + "\n    return\n  fi\n  local proposed=\"\"\n" + proposals(verbs) +
         "  compadd -- ${=proposed}\n  [ -z \"$files\" ] || _files\n}\n_ohmwright \"$@\"\n";
}

std::string fish_completion(std::span<const VerbSpec> verbs) {
  std::string text = "# Made from the table of verbs of ohmwright.\n";
  for (const VerbSpec& verb : verbs)
    text += "complete -c ohmwright -n __fish_use_subcommand -f -a " + std::string(verb.name) + " -d " +
            in_quotes(verb.summary) + '\n';
  for (const VerbSpec& verb : verbs) {
    const std::string where = "complete -c ohmwright -n '__fish_seen_subcommand_from " + std::string(verb.name) + "'";
    if (!first_words(verb).empty()) text += where + " -a " + in_quotes(in_a_row(first_words(verb))) + '\n';
    if (begins_with_a_kind(verb)) text += where + " -a \"(" + std::string(list_of_kinds) + ")\"\n";
    for (const OptionSpec& option : options_of(verb)) {
      text += where + " -l " + std::string(option.name.substr(2));
      if (!option.value.empty()) text += " -r";
      if (!option.choices.empty()) text += " -f -a " + in_quotes(in_a_row(option.choices));
      text += " -d " + in_quotes(option.help) + '\n';
    }
  }
  return text;
}

}  // namespace ohmwright::cli
