#include "command_line.hpp"

#include <algorithm>
#include <array>

#include <CLI/CLI.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

// The only file that knows CLI11: it compiles slowly, and our table of verbs must also feed help, man pages and
// completion.

namespace ohmwright::cli {

namespace {

constexpr std::array common{
    OptionSpec{"--help", "", OHMWRIGHT_TEXT("Show this help"), {}},
    OptionSpec{"--plugins", "DIR", OHMWRIGHT_TEXT("Look for further plugins there too"), {}, true},
    OptionSpec{"--language", "CODE", OHMWRIGHT_TEXT("Language of the texts, where its catalogue is installed"), {}},
    OptionSpec{
        "--width", "COLUMNS", OHMWRIGHT_TEXT("Width of the text (default: COLUMNS, else the terminal's, else 80)"), {}},
    OptionSpec{"--colour", "WHEN", OHMWRIGHT_TEXT("Colour: auto, always or never"), {}},
};

constexpr std::array<std::string_view, 3> colour_choices{"auto", "always", "never"};

/// The action that the words name, where it takes conditions of a kind among its operands; null: none does.
const ActionSpec* action_with_conditions(const VerbSpec& verb, const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].rfind("--", 0) != 0) {
      const auto action = std::find_if(verb.actions.begin(), verb.actions.end(),
                                       [&](const ActionSpec& one) { return one.name == words[i]; });
      return action == verb.actions.end() || !action->takes_conditions ? nullptr : &*action;
    }
    const auto is_it = [&](const OptionSpec& option) { return option.name == words[i]; };
    const auto own = std::find_if(verb.options.begin(), verb.options.end(), is_it);
    const auto shared = std::find_if(common.begin(), common.end(), is_it);
    const bool takes_value = (own != verb.options.end() && !own->value.empty()) ||
                             (own == verb.options.end() && shared != common.end() && !shared->value.empty());
    if (takes_value) ++i;  // it is no action
  }
  return nullptr;
}

/// Of an action that takes conditions its own options alone: what another action calls so may be a condition here, such
/// as `--line`, and stays where it stands among the readings.
std::vector<OptionSpec> all_options(const VerbSpec& verb, const ActionSpec* action) {
  std::vector<OptionSpec> options(verb.options);
  if (action != nullptr)
    std::erase_if(options, [action](const OptionSpec& option) {
      return std::find(action->options.begin(), action->options.end(), option.name) == action->options.end();
    });
  options.insert(options.end(), common.begin(), common.end());
  for (OptionSpec& option : options)
    if (option.name == "--colour") option.choices.assign(colour_choices.begin(), colour_choices.end());
  return options;
}

std::string see_help(std::string_view verb) {
  return "; see: ohmwright " + std::string(verb) + (verb.empty() ? "" : " ") + "--help";
}

/// One verb's grammar in CLI11, and where it puts what it reads.
class VerbParser {
 public:
  VerbParser(const VerbSpec& verb, const ActionSpec* action) : verb_(verb), options_(all_options(verb, action)) {
    app_.set_help_flag();
    app_.allow_extras();
    flags_.reserve(options_.size());
    for (const OptionSpec& option : options_) {
      const std::string name(option.name);
      if (option.value.empty())
        app_.add_flag(name, flags_.emplace_back());
      else
        app_.add_option(name, arguments_.options[name])
            ->expected(1)
            ->allow_extra_args(false)  // the next word is an operand
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    }
  }

  Arguments parse(std::vector<std::string> words) {
    std::replace(words.begin(), words.end(), std::string("-h"), std::string("--help"));
    std::reverse(words.begin(), words.end());  // CLI11 takes them from the back
    try {
      app_.parse(words);
    } catch (const CLI::ParseError& error) {
      throw InputError(in_our_words(error.what()) + see_help(verb_.name));
    }
    collect_flags();
    check_repeats();
    check_choices();
    arguments_.operands = app_.remaining();
    for (const OptionSpec& option : options_) arguments_.option_names.emplace_back(option.name);
    if (!arguments_.has("--help")) check_operands();
    return std::move(arguments_);
  }

 private:
  /// The parser names the option and speaks of its own types.
  std::string in_our_words(const std::string& trouble) const {
    for (const OptionSpec& option : options_) {
      const std::size_t at = trouble.find(option.name);
      if (at == std::string::npos) continue;
      const std::size_t end = at + option.name.size();
      if (end < trouble.size() && (std::isalnum(static_cast<unsigned char>(trouble[end])) != 0 || trouble[end] == '-'))
        continue;  // "--form" within "--format"
      const std::string name(option.name);
      return option.value.empty() ? name + " takes no value" : name + " needs a value: " + std::string(option.value);
    }
    return printable(trouble);
  }

  void collect_flags() {
    std::size_t flag = 0;
    for (const OptionSpec& option : options_) {
      if (!option.value.empty()) continue;
      if (flags_[flag++]) arguments_.options[std::string(option.name)];
    }
    std::erase_if(arguments_.options, [this](const auto& entry) {
      const auto spec = std::find_if(options_.begin(), options_.end(),
                                     [&](const OptionSpec& option) { return option.name == entry.first; });
      return !spec->value.empty() && entry.second.empty();
    });
  }

  /// Of two values one would be taken without a word, and two readers would guess differently which.
  void check_repeats() const {
    for (const OptionSpec& option : options_) {
      const auto given = arguments_.options.find(option.name);
      if (option.may_repeat || given == arguments_.options.end() || given->second.size() < 2) continue;
      throw InputError(std::string(option.name) + " is given twice, as " + ohmwright::quoted(given->second[0]) +
                       " and as " + ohmwright::quoted(given->second[1]) + "; leave one out");
    }
  }

  void check_choices() const {
    for (const OptionSpec& option : options_) {
      if (option.choices.empty() || !arguments_.has(option.name)) continue;
      const std::string value = arguments_.value(option.name);
      if (std::find(option.choices.begin(), option.choices.end(), value) != option.choices.end()) continue;
      throw InputError(std::string(option.name) + " takes one of " + listed(option.choices) + ", got " +
                       ohmwright::quoted(value));
    }
  }

  void check_operands() const {
    if (!verb_.takes_conditions)
      for (const std::string& word : arguments_.operands)
        if (word.size() > 1 && word[0] == '-' && !std::isdigit(static_cast<unsigned char>(word[1])))
          refuse_option(word);
    const auto required = static_cast<std::size_t>(std::count_if(
        verb_.operands.begin(), verb_.operands.end(), [](const OperandSpec& operand) { return operand.required; }));
    if (arguments_.operands.size() < required)
      throw InputError("missing: " + std::string(verb_.operands[arguments_.operands.size()].name) +
                       see_help(verb_.name));
    const bool open_ended = verb_.takes_conditions || (!verb_.operands.empty() && verb_.operands.back().repeats);
    if (!open_ended && arguments_.operands.size() > verb_.operands.size())
      throw InputError("one word too many: " + ohmwright::quoted(arguments_.operands[verb_.operands.size()]) +
                       see_help(verb_.name));
  }

  [[noreturn]] void refuse_option(const std::string& word) const {
    std::vector<std::string> names;
    for (const OptionSpec& option : options_) names.emplace_back(option.name);
    throw InputError("unknown option " + ohmwright::quoted(word) + did_you_mean(word, names) + see_help(verb_.name));
  }

  const VerbSpec& verb_;
  std::vector<OptionSpec> options_;
  std::vector<char> flags_;
  Arguments arguments_;
  CLI::App app_;
};

/// How many words at the beginning say the language: people put it before the verb.
std::size_t words_of_language(const std::vector<std::string>& words) {
  constexpr std::string_view option = "--language";
  if (words.empty()) return 0;
  if (words[0] == option) return std::min<std::size_t>(2, words.size());
  return words[0].rfind(std::string(option) + "=", 0) == 0 ? 1 : 0;
}

}  // namespace

std::span<const OptionSpec> common_options() { return common; }

Invocation parse_command_line(std::span<const VerbSpec> verbs, const std::vector<std::string>& words) {
  if (const std::size_t leading = words_of_language(words); leading > 0) {  // `ohmwright --language es check …`
    std::vector<std::string> moved(words.begin() + static_cast<std::ptrdiff_t>(leading), words.end());
    if (!moved.empty())
      moved.insert(moved.begin() + 1, words.begin(), words.begin() + static_cast<std::ptrdiff_t>(leading));
    return parse_command_line(verbs, moved);
  }
  if (words.empty() || words[0] == "--help" || words[0] == "-h" || words[0] == "help") return {};
  const auto verb = std::find_if(verbs.begin(), verbs.end(), [&](const VerbSpec& v) { return v.name == words[0]; });
  if (verb == verbs.end()) {
    std::vector<std::string> names;
    for (const VerbSpec& v : verbs) names.emplace_back(v.name);
    throw InputError("there is no verb " + ohmwright::quoted(words[0]) + did_you_mean(words[0], names) +
                     "; a part is judged by: ohmwright check KIND READING" + see_help(""));
  }
  const std::vector<std::string> behind(words.begin() + 1, words.end());
  return {&*verb, VerbParser(*verb, action_with_conditions(*verb, behind)).parse(behind)};
}

}  // namespace ohmwright::cli
