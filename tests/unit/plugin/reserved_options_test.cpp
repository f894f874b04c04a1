// The one list of options that no condition may take, held against the tables of the verbs.

#include <gtest/gtest.h>

#include <ohmwright/plugin/reserved_options.hpp>

#include "command_line.hpp"
#include "reading_words.hpp"
#include "verbs.hpp"

namespace ohmwright {
namespace {

void expect_reserved(std::span<const cli::OptionSpec> options) {
  for (const cli::OptionSpec& option : options) EXPECT_TRUE(is_reserved_option(option.name.substr(2))) << option.name;
}

TEST(ReservedOptions, HoldThoseThatStandAmongReadings) {
  expect_reserved(cli::common_options());
  expect_reserved(cli::circumstance_options());
  for (const cli::VerbSpec& verb :
       {cli::check_verb(), cli::chart_verb(), cli::kinds_verb(), cli::ratings_verb(), cli::vectors_verb()}) {
    if (!verb.takes_conditions) continue;
    expect_reserved(verb.options);
    expect_reserved(verb.circumstances);
  }
}

/// An action that takes conditions is parsed with its own options alone: another's, such as `--line`, may be
/// conditions.
TEST(ReservedOptions, HoldThoseOfTheActionsThatTakeReadings) {
  std::size_t with_readings = 0;
  for (const cli::ActionSpec& action : cli::job_verb().actions) {
    if (!action.takes_conditions) continue;
    ++with_readings;
    for (const std::string_view option : action.options) EXPECT_TRUE(is_reserved_option(option.substr(2))) << option;
  }
  EXPECT_EQ(with_readings, 1U) << "job read";
}

}  // namespace
}  // namespace ohmwright
