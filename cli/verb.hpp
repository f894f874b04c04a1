#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::cli {

struct Environment;

/// An option of a verb. One table of these feeds the parser, `--help`, man pages and shell completion.
struct OptionSpec {
  std::string_view name;                       ///< with its dashes: "--ratings"
  std::string_view value;                      ///< what it takes: "NAME|FILE"; empty for a flag
  std::string_view help;                       ///< one English sentence, translated when printed
  std::vector<std::string_view> choices = {};  ///< the only accepted values; empty: any
  bool may_repeat = false;                     ///< given again it says more; else twice is refused
};

/// Words after the verb's name.
struct OperandSpec {
  std::string_view name;
  std::string_view help;
  bool required = false;
  bool repeats = false;
  std::vector<std::string_view> choices = {};  ///< what is proposed for it while it is typed
};

/// What was typed: values by option name, operands in their order.
struct Arguments {
  std::map<std::string, std::vector<std::string>, std::less<>> options;
  std::vector<std::string> operands;
  std::vector<std::string> option_names = {};  ///< that the verb knows: what a slip may have been meant as

  bool has(std::string_view option) const { return options.find(option) != options.end(); }
  /// The last value of an option, or `fallback`.
  std::string value(std::string_view option, std::string_view fallback = {}) const {
    const auto found = options.find(option);
    return found == options.end() || found->second.empty() ? std::string(fallback) : found->second.back();
  }
};

/// Something that a verb can do: `ohmwright VERB NAME`. Its own help is made from this.
struct ActionSpec {
  std::string_view name;
  std::string_view words;                 ///< what is typed behind it: "FOLDER", "[WORD...]"; empty: nothing
  std::string_view summary;               ///< one English sentence, translated when printed
  std::string_view example;               ///< works as printed
  std::vector<std::string_view> options;  ///< names of the verb's options that it takes
  bool takes_conditions = false;
};

/// A verb of the command line.
struct VerbSpec {
  std::string_view name;
  std::string_view summary;  ///< one line for the list of verbs
  std::string_view example;  ///< works as printed
  std::vector<OperandSpec> operands;
  std::vector<OptionSpec> options;
  /// Options that stand among the operands and hold for those near them; beside these the conditions that a kind
  /// declares.
  std::vector<OptionSpec> circumstances;
  bool takes_conditions = false;
  std::function<int(const Arguments&, Environment&)> run;  ///< gives the exit code
  std::vector<ActionSpec> actions = {};                    ///< what its first word can be; empty: it has none
};

}  // namespace ohmwright::cli
