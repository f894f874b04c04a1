#include "command_line.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

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

}  // namespace
}  // namespace ohmwright::cli
