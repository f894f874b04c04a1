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
#include "plugin/actions.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// One thing that the verb can do. `spec.words` is what its one word is; empty: none.
struct PluginAction {
  ActionSpec spec;
  int (*run)(const Arguments&, Environment&) = nullptr;
};

std::vector<PluginAction> plugin_actions() {
  return {{{"new",
            "FOLDER",
            OHMWRIGHT_TEXT("Writes the folder of a new kind, which builds and teaches what to fill in"),
            "ohmwright plugin new coil-relay --like switch",
            {"--kind", "--like", "--without-code"}},
           new_plugin},
          {{"test",
            "FILE|FOLDER",
            OHMWRIGHT_TEXT("Tries a kind by all that is promised of one, and says what to mend"),
            "ohmwright plugin test build --format json --out report.json",
            {"--format", "--out"}},
           test_plugin},
          {{"debug",
            "KIND READING",
            OHMWRIGHT_TEXT("Judges readings in this process and shows why each rule spoke or stayed silent"),
            "ohmwright plugin debug thermistor 11.0k --at 23C --lead-off --ratings ntc-10k-b3977",
            {"--ratings", "--control", "--readings", "--series", "--meter", "--confidence", "--live-agreed"},
            true},
           debug_plugin},
          {{"inspect",
            "FILE",
            OHMWRIGHT_TEXT("Says what a file is and whether it would be taken, without running anything of it"),
            "ohmwright plugin inspect coil-relay.ohmplug --format json",
            {"--format", "--out"}},
           inspect_plugin},
          {{"allow",
            "FILE",
            OHMWRIGHT_TEXT("Permits the bytes of a file, whoever owns it"),
            "ohmwright plugin allow coil-relay.ohmplug",
            {}},
           allow_plugin},
          {{"revoke",
            "FILE|SHA256|KIND",
            OHMWRIGHT_TEXT("Takes a permission back"),
            "ohmwright plugin revoke coil-relay",
            {}},
           revoke_plugin},
          {{"allowed", "", OHMWRIGHT_TEXT("Lists what is permitted"), "ohmwright plugin allowed", {}},
           list_allowed_plugins}};
}

/// The specs alone.
std::vector<ActionSpec> plugin_specs() {
  std::vector<ActionSpec> specs;
  for (const PluginAction& action : plugin_actions()) specs.push_back(action.spec);
  return specs;
}

void check_words_of(const ActionSpec& action, const Arguments& arguments) {
  const std::string name(action.name);
  const std::size_t wanted = action.words.empty() ? 1 : 2;
  if (arguments.operands.size() < wanted)
    throw InputError("missing: " + std::string(action.words) + "; ohmwright plugin " + name + " " +
                     std::string(action.words));
  if (!action.takes_conditions && arguments.operands.size() > wanted)
    throw InputError("one word too many: " + ohmwright::quoted(arguments.operands[wanted]) + "; ohmwright plugin " +
                     name + (action.words.empty() ? " takes none" : " takes one " + std::string(action.words)));
}

/// The verb takes conditions for one of its actions; for the others a word with a dash is a slip.
void check_options_of(const ActionSpec& action, const Arguments& arguments) {
  const std::string name(action.name);
  if (!action.takes_conditions)
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
    names.emplace_back(action.spec.name);
    if (action.spec.name != typed) continue;
    check_options_of(action.spec, arguments);
    check_words_of(action.spec, arguments);
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
              {"--format", "FORMAT", OHMWRIGHT_TEXT("test, inspect: text (default) or json"), {"text", "json"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("test, inspect: write there instead of the terminal"), {}},
          },
      .circumstances = {circumstance_options().begin(), circumstance_options().end()},
      .takes_conditions = true,
      .run = run_plugin,
      .actions = plugin_specs(),
  };
}

}  // namespace ohmwright::cli
