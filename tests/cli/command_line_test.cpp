#include "command_line.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "help.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {
namespace {

using ::testing::ElementsAre;

std::vector<VerbSpec> verbs() {
  return {{.name = "check",
           .summary = "check",
           .example = "",
           .operands = {{"KIND", "", true, false}, {"READING", "", false, true}},
           .options = {{"--ratings", "NAME", "", {}}, {"--format", "F", "", {"text", "json"}}, {"--yes", "", "", {}}},
           .circumstances = {},
           .takes_conditions = true,
           .run = {}},
          {.name = "ratings",
           .summary = "ratings",
           .example = "",
           .operands = {{"NAME", "", false, false}},
           .options = {{"--kind", "KIND", "", {}}},
           .circumstances = {},
           .takes_conditions = false,
           .run = {}}};
}

std::string refusal_of(const std::vector<std::string>& words) {
  const auto table = verbs();
  try {
    parse_command_line(table, words);
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

TEST(CommandLine, GivesOptionsByNameAndOperandsInTheirOrder) {
  const auto table = verbs();
  const Invocation invocation = parse_command_line(
      table, {"check", "sensor", "11k", "--ratings", "mine", "--at", "-18C", "--format=json", "--wet", "-5"});
  EXPECT_EQ(invocation.verb->name, "check");
  EXPECT_EQ(invocation.arguments.value("--ratings"), "mine");
  EXPECT_EQ(invocation.arguments.value("--format"), "json");
  EXPECT_FALSE(invocation.arguments.has("--yes"));
  EXPECT_THAT(invocation.arguments.operands, ElementsAre("sensor", "11k", "--at", "-18C", "--wet", "-5"));
}

TEST(CommandLine, AFlagIsThereOrNot) {
  const auto table = verbs();
  EXPECT_TRUE(parse_command_line(table, {"check", "sensor", "--yes"}).arguments.has("--yes"));
}

TEST(CommandLine, AsksForHelpWithoutItsOperands) {
  const auto table = verbs();
  EXPECT_TRUE(parse_command_line(table, {"check", "--help"}).arguments.has("--help"));
  EXPECT_TRUE(parse_command_line(table, {"ratings", "-h"}).arguments.has("--help"));
  EXPECT_EQ(parse_command_line(table, {"--help"}).verb, nullptr);
  EXPECT_EQ(parse_command_line(table, {}).verb, nullptr);
}

TEST(CommandLine, RefusesWithWhatThereIs) {
  EXPECT_EQ(refusal_of({"chek"}),
            "there is no verb \"chek\"; did you mean \"check\"?; a part is judged by: ohmwright check KIND READING; "
            "see: ohmwright --help");
  EXPECT_EQ(refusal_of({"check"}), "missing: KIND; see: ohmwright check --help");
  EXPECT_EQ(refusal_of({"check", "sensor", "--format", "xml"}), "--format takes one of text, json, got \"xml\"");
  EXPECT_EQ(refusal_of({"check", "sensor", "--ratings"}), "--ratings needs a value: NAME; see: ohmwright check --help");
  EXPECT_EQ(refusal_of({"check", "sensor", "--yes=perhaps"}), "--yes takes no value; see: ohmwright check --help");
  EXPECT_EQ(refusal_of({"ratings", "--knd", "x"}),
            "unknown option \"--knd\"; did you mean \"--kind\"?; see: ohmwright ratings --help");
  EXPECT_EQ(refusal_of({"ratings", "a", "b"}), "one word too many: \"b\"; see: ohmwright ratings --help");
}

/// The words of a command as a shell parts them, as far as examples need it.
std::vector<std::string> words_of(std::string_view command) {
  std::vector<std::string> words;
  bool quoted = false;
  bool inside = false;
  for (const char letter : command) {
    if (letter == '"') {
      quoted = !quoted;
    } else if (letter == ' ' && !quoted) {
      inside = false;
      continue;
    }
    if (!inside) words.emplace_back();
    inside = true;
    if (letter != '"') words.back() += letter;
  }
  return words;
}

TEST(Actions, EachHasAnExampleThatItTakesAndOptionsThatItsVerbHas) {
  const std::vector<VerbSpec> all = all_verbs();
  std::size_t actions = 0;
  for (const VerbSpec& verb : all)
    for (const ActionSpec& action : verb.actions) {
      SCOPED_TRACE(std::string(verb.name) + " " + std::string(action.name));
      ++actions;
      for (const std::string_view option : action.options)
        EXPECT_TRUE(std::any_of(verb.options.begin(), verb.options.end(), [&](const OptionSpec& one) {
          return one.name == option;
        })) << option;
      std::vector<std::string> words = words_of(action.example);
      ASSERT_GE(words.size(), 3U);
      EXPECT_EQ(words[2], action.name);
      words.erase(words.begin());
      const Invocation example = parse_command_line(all, words);
      EXPECT_EQ(example.verb, &verb);
      for (const auto& [option, values] : example.arguments.options)
        EXPECT_NE(std::find(action.options.begin(), action.options.end(), option), action.options.end()) << option;
      const std::string help = action_help(verb, action, Sentences{UnitPreferences{}}, PageStyle{300, false});
      EXPECT_NE(help.find(action.example), std::string::npos) << help;
      for (const OptionSpec& option : verb.options) {
        const bool is_circumstance =  // then it stands there, too, with another meaning
            std::any_of(verb.circumstances.begin(), verb.circumstances.end(),
                        [&](const OptionSpec& one) { return one.name == option.name; });
        if (action.takes_conditions && is_circumstance) continue;
        EXPECT_EQ(help.find("\n  " + std::string(option.name) + " ") != std::string::npos,
                  std::find(action.options.begin(), action.options.end(), option.name) != action.options.end())
            << option.name;
      }
    }
  EXPECT_GE(actions, 30U) << "of course, job and plugin";
}

}  // namespace
}  // namespace ohmwright::cli
