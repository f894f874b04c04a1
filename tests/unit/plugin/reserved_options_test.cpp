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

}  // namespace
}  // namespace ohmwright
