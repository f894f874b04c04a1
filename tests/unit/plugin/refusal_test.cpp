#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "plugin_folder.hpp"

namespace ohmwright {
namespace {

/// A wrong plugin and everything that is to be said of it. FILE stands for its path, FOLDER for its folder.
struct WrongPlugin {
  std::string name;
  std::string kind;  ///< what is asked for; empty: the stamp cannot be read, the list of refused ones is looked at
  std::vector<std::string> reasons;
  std::function<void(const test::PluginFolder&)> put_into = {};  ///< default: the fixture called `name`
};

void PrintTo(const WrongPlugin& wrong, std::ostream* out) { *out << wrong.name; }

class Refusal : public testing::TestWithParam<WrongPlugin> {};

std::string filled_in(std::string text, const std::string& placeholder, const std::string& value) {
  for (std::size_t at = text.find(placeholder); at != std::string::npos; at = text.find(placeholder))
    text.replace(at, placeholder.size(), value);
  return text;
}

/// The refusal as `ohmwright check` would print it, asked for twice: a second attempt must not end otherwise.
std::string refusal_of(const std::string& kind, const Registry& registry) {
  if (kind.empty()) return PluginError(registry.refused().at(0).path, registry.refused().at(0).reasons).what();
  std::string first;
  for (int attempt = 0; attempt < 2; ++attempt) {
    try {
      registry.kind(kind);
      return "it was loaded";
    } catch (const PluginError& error) {
      EXPECT_EQ(error.category(), ErrorCategory::plugin);
      if (attempt == 1) {
        EXPECT_EQ(error.what(), first);
      }
      first = error.what();
    }
  }
  return first;
}

TEST_P(Refusal, SaysExactlyWhyAndWhatToDo) {
  const WrongPlugin& wrong = GetParam();
  const test::PluginFolder folder;
  const std::string file = (folder.path() / (wrong.name + ".ohmplug")).string();
  if (wrong.put_into) {
    wrong.put_into(folder);
  } else {
    folder.add(wrong.name);
  }
  std::string expected;
  for (const std::string& reason : wrong.reasons)
    expected += (expected.empty() ? "" : "\n") + file + ": plugin refused: " + reason;
  expected = filled_in(expected, "FILE", file);
  expected = filled_in(expected, "FOLDER", folder.path().string());
  const Registry registry(folder.list(), ::geteuid());
  EXPECT_EQ(refusal_of(wrong.kind, registry), expected);
}

const std::vector<WrongPlugin> wrong_plugins = {
    {"abi_newer",
     "abi-newer",
     {"it was built for plugin ABI 3, newer than this program's 2: update ohmwright, or rebuild the plugin against "
      "it"}},
    {"abi_older",
     "abi-older",
     {"it was built for plugin ABI 1, older than this program's 2: rebuild the plugin against the installed "
      "ohmwright"}},
    {"wrong_build_tag",
     "wrong-build-tag",
     {"it was built with another standard library: \"libc++-abi1\", this program with \"libstdc++-cxx11abi1\"",
      "it was built with another Boost version: \"boost108100\", this program with \"boost107400\"",
      "rebuild the plugin against the installed ohmwright, with its compiler settings"}},
    {"everything_wrong",
     "second",
     {"it was built for plugin ABI 3, newer than this program's 2: update ohmwright, or rebuild the plugin against it",
      "it was built with another standard library: \"libc++-abi1\", this program with \"libstdc++-cxx11abi1\"",
      "its kind \"Every Thing\" must be named with a-z, 0-9 and -, beginning with a letter",
      "an alias of its kind \"Every Thing\" cannot be shown: \"\""}},
    {"no_entry", "no-entry", {"it has no function ohmwright_plugin_entry_v2"}},
    {"null_table", "null-table", {"its table is null"}},
    {"wrong_table", "wrong-table", {"its table has 2 kinds, its stamp 1"}},
    {"null_kind", "null-kind", {"making the kind \"null-kind\" gave nothing"}},
    {"throws_in_factory", "throws-in-factory", {"making the kind \"throws-in-factory\" failed: no wish to be made"}},
    {"throws_int_in_factory",
     "throws-int-in-factory",
     {"making the kind \"throws-int-in-factory\" failed: something was thrown that is no exception"}},
    {"unprintable_refusal",
     "unprintable-refusal",
     {"making the kind \"unprintable-refusal\" failed: made\\nof \\x1b[31mred"}},
    {"incomplete_descriptor",
     "unfinished",
     {"its descriptor is of \"another-id\", its stamp of \"incomplete-descriptor\"",
      "the alias \"unfinished\" is in its stamp but not in its descriptor",
      "kind \"incomplete-descriptor\" has no title", "rule \"reads-something\" has no text",
      "caution \"disconnect-power\" is the framework's own and cannot be replaced",
      "procedure \"read-it\" names the measurand \"insulation\", which is not there",
      "procedure \"read-it\" has no caution"}},
    {"undefined_symbol",
     "undefined-symbol",
     {"it cannot be loaded: undefined symbol: ohmwright_test_function_of_nobody"}},
    {"static_initialiser_writes_file",
     "writes-file",
     {"it was built for plugin ABI 3, newer than this program's 2: update ohmwright, or rebuild the plugin against "
      "it"}},
    {"no_stamp",
     "",
     {"it is a shared library without an ohmwright stamp (section .ohmwright_stamp), so no plugin; build it with "
      "ohmwright_add_plugin"}},
    {"truncated",
     "",
     {"the file ends after 6000 bytes, before the end of one of its segments: it was cut off; copy it again or build "
      "it "
      "again"},
     [](const test::PluginFolder& folder) {
       std::vector<std::byte> bytes = test::bytes_of(test::fixture("good"));
       bytes.resize(6000);
       folder.write("truncated.ohmplug", bytes);
     }},
    {"not_a_library",
     "",
     {"it is not a shared library (it does not begin as an ELF file)"},
     [](const test::PluginFolder& folder) {
       folder.write("not_a_library.ohmplug", std::vector<std::byte>(100, std::byte{'x'}));
     }},
    {"empty",
     "",
     {"it is not a shared library (it does not begin as an ELF file)"},
     [](const test::PluginFolder& folder) { folder.write("empty.ohmplug", {}); }},
    {"world_writable",
     "",
     {"others can write to the file (mode 0666); if you trust what is in it: chmod go-w FILE"},
     [](const test::PluginFolder& folder) { folder.set_mode(folder.add("good", "world_writable.ohmplug"), 0666); }},
    {"leads_nowhere",
     "",
     {"it cannot be opened: No such file or directory"},
     [](const test::PluginFolder& folder) {
       std::filesystem::create_symlink("nowhere.ohmplug", folder.path() / "leads_nowhere.ohmplug");
     }},
    {"symlink",
     "",
     {"others can write to the file (mode 0606); if you trust what is in it: chmod go-w FOLDER/kept/elsewhere/real"},
     [](const test::PluginFolder& folder) {
       folder.set_mode(folder.add("good", "kept/elsewhere/real"), 0606);
       folder.set_mode(folder.path() / "kept", 0755);
       std::filesystem::create_symlink("kept/elsewhere/real", folder.path() / "symlink.ohmplug");
     }},
};

INSTANTIATE_TEST_SUITE_P(WrongPlugins, Refusal, testing::ValuesIn(wrong_plugins),
                         [](const auto& wrong) { return wrong.param.name; });

}  // namespace
}  // namespace ohmwright
