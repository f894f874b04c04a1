#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "circumstances.hpp"
#include "plugin_actions.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// One thing that the verb can do.
struct PluginAction {
  std::string_view name;
  std::string_view takes;  ///< what its one word is; empty: none
  int (*run)(const Arguments&, Environment&) = nullptr;
  std::vector<std::string_view> options = {};  ///< that it takes, beside those of every verb
  bool takes_readings = false;                 ///< any number of words, and conditions among them
};

std::vector<PluginAction> plugin_actions() {
  return {{"new", "FOLDER", new_plugin, {"--kind", "--like", "--without-code"}},
          {"test", "FILE|FOLDER", test_plugin},
          {"debug",
           "KIND READING",
           debug_plugin,
           {"--ratings", "--control", "--readings", "--series", "--meter", "--confidence", "--live-agreed"},
           true},
          {"inspect", "FILE", inspect_plugin},
          {"allow", "FILE", allow_plugin},
          {"revoke", "FILE|SHA256|KIND", revoke_plugin},
          {"allowed", "", list_allowed_plugins}};
}

void check_words_of(const PluginAction& action, const Arguments& arguments) {
  const std::string name(action.name);
  const std::size_t wanted = action.takes.empty() ? 1 : 2;
  if (arguments.operands.size() < wanted)
    throw InputError("missing: " + std::string(action.takes) + "; ohmwright plugin " + name + " " +
                     std::string(action.takes));
  if (!action.takes_readings && arguments.operands.size() > wanted)
    throw InputError("one word too many: " + ohmwright::quoted(arguments.operands[wanted]) + "; ohmwright plugin " +
                     name + (action.takes.empty() ? " takes none" : " takes one " + std::string(action.takes)));
}

/// The verb takes conditions for one of its actions; for the others a word with a dash is a slip.
void check_options_of(const PluginAction& action, const Arguments& arguments) {
  const std::string name(action.name);
  if (!action.takes_readings)
    for (const std::string& word : arguments.operands)
      if (word.size() > 1 && word[0] == '-')
        throw InputError("unknown option " + ohmwright::quoted(word) + did_you_mean(word, arguments.option_names) +
                         "; see: ohmwright plugin --help");
  for (const OptionSpec& option : plugin_verb().options)
    if (arguments.has(option.name) &&
        std::find(action.options.begin(), action.options.end(), option.name) == action.options.end())
      throw InputError("plugin " + name + " takes no " + std::string(option.name));
}

int run_plugin(const Arguments& arguments, Environment& environment) {
  const std::string& typed = arguments.operands[0];
  std::vector<std::string> names;
  for (const PluginAction& action : plugin_actions()) {
    names.emplace_back(action.name);
    if (action.name != typed) continue;
    check_options_of(action, arguments);
    check_words_of(action, arguments);
    return action.run(arguments, environment);
  }
  throw InputError("plugin cannot " + ohmwright::quoted(typed) + did_you_mean(typed, names) +
                   "; it can: " + listed(names));
}

}  // namespace

VerbSpec plugin_verb() {
  return {
      .name = "plugin",
      .summary = OHMWRIGHT_TEXT("Write a new kind, try it out, look into it, permit what others own"),
      .example = "ohmwright plugin debug thermistor 11.0k --at 23C --lead-off --ratings ntc-10k-b3977",
      .operands = {{"ACTION",
                    OHMWRIGHT_TEXT("new, test, debug, inspect, allow, revoke or allowed"),
                    true,
                    false,
                    {"new", "test", "debug", "inspect", "allow", "revoke", "allowed"}},
                   {"WORD",
                    OHMWRIGHT_TEXT("new: a folder to write; test: a library (.ohmplug), a kind file (.kind.json) or a "
                                   "folder of them; inspect, allow: such a file; revoke: also its SHA-256 or a kind of "
                                   "it; debug: a kind, then readings as check takes them"),
                    false, true}},
      .options =
          {
              {"--kind", "ID", OHMWRIGHT_TEXT("new: the id of the kind (default: the folder's name)"), {}},
              {"--like",
               "SORT",
               OHMWRIGHT_TEXT("new: resistor (default), switch, motor or board-output"),
               {"resistor", "switch", "motor", "board-output"}},
              {"--without-code", "", OHMWRIGHT_TEXT("new: a kind file, which needs no C++"), {}},
              {"--ratings", "NAME|FILE", OHMWRIGHT_TEXT("debug: what the part should be"), {}},
              {"--control", "NAME|FILE", OHMWRIGHT_TEXT("debug: what reads the part"), {}},
              {"--readings", "FILE", OHMWRIGHT_TEXT("debug: readings from a file"), {}},
              {"--series", "FILE", OHMWRIGHT_TEXT("debug: a table of readings"), {}},
              {"--meter", "NAME|FILE", OHMWRIGHT_TEXT("debug: the meter, as check takes it"), {}, true},
              {"--confidence", "P", OHMWRIGHT_TEXT("debug: how sure a verdict must be (default 0.95)"), {}},
              {"--live-agreed",
               "",
               OHMWRIGHT_TEXT("debug: you are qualified for live measurement and agreed to it"),
               {}},
          },
      .circumstances = {circumstance_options().begin(), circumstance_options().end()},
      .takes_conditions = true,
      .run = run_plugin,
  };
}

}  // namespace ohmwright::cli
