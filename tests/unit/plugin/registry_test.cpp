#include <cstdlib>
#include <dlfcn.h>
#include <sys/wait.h>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "../../plugins/support/no_readings.hpp"
#include "plugin_folder.hpp"

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Registry registry_of(const test::PluginFolder& folder) { return {folder.list(), ::geteuid()}; }

std::vector<std::string> files_of(const Registry& registry) {
  std::vector<std::string> names;
  for (const FoundPlugin& plugin : registry.plugins()) names.push_back(plugin.path.filename().string());
  return names;
}

/// How often a library of that file name is mapped: the name of its sealed copy shows in the process's maps.
bool is_mapped(const std::string& file) {
  std::ifstream maps("/proc/self/maps");
  const std::string text((std::istreambuf_iterator<char>(maps)), std::istreambuf_iterator<char>());
  return text.find("/memfd:" + file) != std::string::npos;
}

std::vector<std::byte> bytes_of_text(std::string_view text) {
  const auto* begin = reinterpret_cast<const std::byte*>(text.data());
  return {begin, begin + text.size()};
}

std::string input_error(const Registry& registry, std::string_view name) {
  try {
    registry.kind(name);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

TEST(PluginFolders, ComeInTheOrderInstallationSearchPathOptions) {
  EXPECT_THAT(plugin_folders("/inst", "/env/a::/env/b:", {"/opt/a", "/opt/b"}),
              ElementsAre("/inst", "/env/a", "/env/b", "/opt/a", "/opt/b"));
  EXPECT_THAT(plugin_folders("/inst", std::nullopt, {}), ElementsAre("/inst"));
}

TEST(Registry, FindsPluginsInTheFolderAndRightBelowItSortedByName) {
  const test::PluginFolder folder;
  folder.add("two_kinds", "a/two_kinds.ohmplug");
  folder.add("throws_in_judge", "z.ohmplug");
  folder.add("good", "b/good.ohmplug");
  folder.add("misuses_findings", "b/not/looked/at.ohmplug");
  folder.add("misuses_findings", "b/other-suffix.so");
  const Registry registry = registry_of(folder);
  EXPECT_THAT(files_of(registry), ElementsAre("z.ohmplug", "two_kinds.ohmplug", "good.ohmplug"));
  EXPECT_THAT(registry.refused(), IsEmpty());
}

TEST(Registry, KnowsKindsWithoutLoadingAndLoadsOnlyWhatIsAskedFor) {
  const test::PluginFolder folder;
  folder.add("two_kinds", "stays_on_disk.ohmplug");
  folder.add("good", "asked_for.ohmplug");
  const Registry registry = registry_of(folder);
  ASSERT_THAT(registry.plugins(), SizeIs(2));
  EXPECT_THAT(registry.plugins()[1].kinds, SizeIs(2));
  EXPECT_FALSE(is_mapped("asked_for.ohmplug"));
  EXPECT_EQ(registry.kind("good-part").descriptor().title, "Part for tests");
  EXPECT_TRUE(is_mapped("asked_for.ohmplug"));
  EXPECT_FALSE(is_mapped("stays_on_disk.ohmplug"));
}

TEST(Registry, FindsAKindByItsAliasHoweverItIsWritten) {
  const test::PluginFolder folder;
  folder.add("good");
  const Registry registry = registry_of(folder);
  const LoadedKind& kind = registry.kind("good-part");
  for (const char* name : {"well made part", "Well-Made Part", "well_made_part", "GOOD-PART"})
    EXPECT_EQ(&registry.kind(name), &kind) << name;
}

TEST(Registry, GivesEachKindOfALibraryAndWhereItsDataLie) {
  const test::PluginFolder folder;
  const auto path = folder.add("two_kinds", "two/two_kinds.ohmplug");
  const Registry registry = registry_of(folder);
  EXPECT_EQ(registry.kind("first-part").descriptor().id, "first-part");
  const LoadedKind& second = registry.kind("second");
  EXPECT_EQ(second.descriptor().id, "second-part");
  EXPECT_EQ(&second.kind().descriptor(), &second.descriptor());
  EXPECT_EQ(second.path(), path);
  EXPECT_EQ(second.data_folder(), path.parent_path());
  EXPECT_EQ(second.ratings_folder(), path.parent_path() / "ratings");
  EXPECT_EQ(second.vectors_folder(), path.parent_path() / "vectors");
}

TEST(Registry, AnUnknownNameGetsTheNearestOneAndTheList) {
  const test::PluginFolder folder;
  folder.add("good");
  folder.add("two_kinds");
  EXPECT_EQ(
      input_error(registry_of(folder), "god-part"),
      "no kind is called \"god-part\"; did you mean \"good-part\"?; there are good-part, first-part, second-part");
  folder.add("no_stamp");
  EXPECT_THAT(input_error(registry_of(folder), "toaster"),
              AllOf(HasSubstr("no kind is called \"toaster\"; there are good-part, first-part, second-part; refused: "),
                    HasSubstr("no_stamp.ohmplug: "), HasSubstr("stamp")));
  for (const char* file : {"wrong_build_tag", "abi_newer", "abi_older"}) folder.add(file);
  EXPECT_THAT(input_error(registry_of(folder), "toaster"), HasSubstr("more (\"ohmwright kinds\" says why)"));
}

TEST(Registry, AWordOfSeveralNamesGetsThemAll) {
  const test::PluginFolder folder;
  folder.add("good");
  folder.add("two_kinds");
  EXPECT_EQ(
      input_error(registry_of(folder), "Part"),
      "no kind is called \"Part\" alone; say which: good-part, first-part, second-part (\"ohmwright kinds\" tells "
      "them apart)");
  EXPECT_EQ(input_error(registry_of(folder), "good"), "no kind is called \"good\"; did you mean \"good-part\"?");
}

TEST(Registry, WithoutAnyPluginTheFoldersAreNamed) {
  const test::PluginFolder folder;
  const Registry registry(plugin_folders(folder.path() / "not installed", folder.path().native(), {}), ::geteuid());
  EXPECT_EQ(input_error(registry, "heater"), "no kind is called \"heater\"; no plugin was found in '" +
                                                 folder.path().string() + "/not installed', " + folder.path().string());
}

TEST(Registry, AFolderThatWasAskedForButIsAbsentIsListedAsRefused) {
  const test::PluginFolder folder;
  const Registry registry(plugin_folders(folder.path() / "absent", {}, {folder.path() / "typo"}), ::geteuid());
  ASSERT_THAT(registry.refused(), SizeIs(1));
  EXPECT_EQ(registry.refused()[0].path, folder.path() / "typo");
  EXPECT_THAT(registry.refused()[0].reasons, ElementsAre("the folder cannot be read: No such file or directory"));
}

TEST(Registry, AFolderThatOthersCanWriteIsRefusedWhole) {
  const test::PluginFolder folder;
  folder.add("good");
  folder.set_mode(folder.path(), 0777);
  const Registry registry = registry_of(folder);
  EXPECT_THAT(registry.plugins(), IsEmpty());
  ASSERT_THAT(registry.refused(), SizeIs(1));
  EXPECT_THAT(registry.refused()[0].reasons[0], HasSubstr("chmod go-w " + folder.path().string()));
  try {
    registry.kind("good");
    ADD_FAILURE() << "it was refused";
  } catch (const PluginError& error) {
    EXPECT_THAT(error.what(), HasSubstr("chmod go-w ")) << "its file's name says that it is there";
  }
}

TEST(Registry, AKindWhoseFileOthersCanWriteIsRefusedWithThatReason) {
  const test::PluginFolder folder;
  folder.set_mode(folder.add("good"), 0666);
  const Registry registry = registry_of(folder);
  try {
    registry.kind("good");
    ADD_FAILURE() << "it was refused";
  } catch (const PluginError& error) {
    EXPECT_THAT(error.what(), HasSubstr("others can write to the file (mode 0666)"));
  }
  EXPECT_THAT(input_error(registry, "good-part"), HasSubstr("others can write to the file (mode 0666)"))
      << "its file is named otherwise, so that it may be any";
}

TEST(Registry, TheSecondOfTwoEqualKindsIsRefusedAndTheFirstStays) {
  const test::PluginFolder folder;
  const auto first = folder.add("good", "1.ohmplug");
  const auto second = folder.add("duplicate_kind", "2.ohmplug");
  const Registry registry = registry_of(folder);
  EXPECT_THAT(files_of(registry), ElementsAre("1.ohmplug"));
  ASSERT_THAT(registry.refused(), SizeIs(1));
  EXPECT_EQ(registry.refused()[0].path, second);
  EXPECT_THAT(registry.refused()[0].reasons,
              ElementsAre("the name of its kind \"good-part\" is taken by the kind \"good-part\" of " + first.string() +
                          "; remove one of the two"));
  EXPECT_EQ(registry.refused()[0].another_build_of, first);
  EXPECT_EQ(registry.kind("good-part").path(), first);
}

TEST(Registry, OfTwoEqualKindsTheOneInItsOwnFolderStays) {
  const test::PluginFolder folder;
  const auto other = folder.add("good", "1.ohmplug");
  const auto own = folder.add("duplicate_kind", "good-part/good-part.ohmplug");
  const Registry registry = registry_of(folder);
  EXPECT_EQ(registry.kind("good-part").path(), own);
  EXPECT_THAT(files_of(registry), ElementsAre("good-part.ohmplug"));
  ASSERT_THAT(registry.refused(), SizeIs(1));
  EXPECT_EQ(registry.refused()[0].path, other);
}

TEST(Registry, FindsAKindInItsOwnFolderWithoutALookAtTheOthers) {
  const test::PluginFolder folder;
  folder.add("good", "good-part/good-part.ohmplug");
  const Registry registry = registry_of(folder);
  const LoadedKind& kind = registry.kind("Good part");
  folder.add("two_kinds", "later.ohmplug");  // had there been a search, it would have been before this
  EXPECT_THAT(registry.plugins(), SizeIs(2));
  EXPECT_EQ(&registry.kind("good-part"), &kind) << "it stays the one that was loaded";
  EXPECT_EQ(&registry.kind("Well-made part"), &kind) << "by its alias, too";
}

TEST(Registry, FindsAnAliasOfTheIndexWithoutALookAtTheOthers) {
  const test::PluginFolder folder;
  folder.add("good", "good-part/good-part.ohmplug");
  folder.write("kinds.index.json",
               bytes_of_text(R"({"kinds": [{"kind": "good-part", "aliases": ["Well-made part"]}]})"));
  const Registry registry = registry_of(folder);
  const LoadedKind& kind = registry.kind("well made part");
  folder.add("two_kinds", "later.ohmplug");  // had there been a search, it would have been before this
  EXPECT_THAT(registry.plugins(), SizeIs(2));
  EXPECT_EQ(&registry.kind("good-part"), &kind) << "it is loaded once";
}

// The index only says where to look first: what a plugin is not called by now it was not asked for.
TEST(Registry, BelievesNoAliasOfTheIndexThatThePluginDoesNotHave) {
  const test::PluginFolder folder;
  folder.add("good", "good-part/good-part.ohmplug");
  folder.add("two_kinds", "two.ohmplug");
  folder.write("kinds.index.json", bytes_of_text(R"({"kinds": [{"kind": "good-part", "aliases": ["second"]},
                                                            {"kind": "absent-part", "aliases": ["first part"]}]})"));
  const Registry registry = registry_of(folder);
  EXPECT_EQ(registry.kind("second").descriptor().id, "second-part");
  EXPECT_EQ(registry.kind("first part").descriptor().id, "first-part");
}

TEST(Registry, TellsWhyAKindInItsOwnFolderIsRefused) {
  const test::PluginFolder folder;
  test::PluginFolder::set_mode(folder.add("good", "good-part/good-part.ohmplug"), 0666);
  const Registry registry = registry_of(folder);
  try {
    registry.kind("good-part");
    ADD_FAILURE() << "others could write to it";
  } catch (const PluginError& error) {
    EXPECT_THAT(error.what(), HasSubstr("others can write to the file (mode 0666)"));
  }
}

TEST(Registry, AnAliasThatIsTakenRefusesItsPlugin) {
  const test::PluginFolder folder;
  const auto first = folder.add("good", "1.ohmplug");
  folder.add("duplicate_alias", "2.ohmplug");
  const Registry registry = registry_of(folder);
  ASSERT_THAT(registry.refused(), SizeIs(1));
  EXPECT_THAT(registry.refused()[0].reasons,
              ElementsAre("its alias \"Well-made part\" is taken by the kind \"good-part\" "
                          "of " +
                          first.string() + "; remove one of the two"));
}

TEST(Registry, AFileOrFolderThatIsReachedTwiceCountsOnce) {
  const test::PluginFolder folder;
  const auto path = folder.add("good", "kind/good.ohmplug");
  std::filesystem::create_symlink(path, folder.path() / "link.ohmplug");
  const Registry registry({folder.path(), folder.path() / "kind", folder.path() / "."}, ::geteuid());
  EXPECT_THAT(registry.plugins(), SizeIs(1));
  EXPECT_THAT(registry.refused(), IsEmpty());
}

TEST(Registry, APluginThatIsReplacedAfterTheSearchIsNotLoaded) {
  const test::PluginFolder folder;
  const auto path = folder.add("good", "plugin.ohmplug");
  const Registry registry = registry_of(folder);
  ASSERT_THAT(registry.plugins(), SizeIs(1)) << "it was searched for";
  std::filesystem::remove(path);
  folder.add("two_kinds", "plugin.ohmplug");
  try {
    registry.kind("good-part");
    ADD_FAILURE() << "it was loaded";
  } catch (const PluginError& error) {
    EXPECT_EQ(error.what(),
              path.string() + ": plugin refused: it was replaced by another plugin meanwhile; start again");
  }
}

TEST(Registry, NothingOfARefusedPluginRuns) {
  const test::PluginFolder folder;
  const auto path = folder.add("static_initialiser_writes_file");
  const auto witness = folder.path() / "witness";
  ASSERT_EQ(::setenv("OHMWRIGHT_TEST_WITNESS", witness.c_str(), 1), 0);
  const Registry registry = registry_of(folder);
  EXPECT_THROW(registry.kind("writes-file"), PluginError);
  EXPECT_FALSE(std::filesystem::exists(witness));

  // The witness works: opening the library does run its code. In a child, so that it stays out of this process.
  const ::pid_t child = ::fork();
  if (child == 0) ::_exit(::dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL) != nullptr ? 0 : 1);
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_EQ(status, 0);
  EXPECT_TRUE(std::filesystem::exists(witness));
  ::unsetenv("OHMWRIGHT_TEST_WITNESS");
}

TEST(Registry, APartOutlivesTheRegistryAndSoDoesTheCodeThatDestroysIt) {
  const test::PluginFolder folder;
  folder.add("good", "outlived.ohmplug");
  std::shared_ptr<const Part> part;
  std::string_view text_of_the_plugin;
  Descriptor copy;
  {
    const Registry registry = registry_of(folder);
    const LoadedKind& kind = registry.kind("good-part");
    std::vector<Problem> problems;
    part = kind.make_part(nullptr, problems);
    EXPECT_THAT(problems, IsEmpty());
    copy = kind.descriptor();
    text_of_the_plugin = kind.descriptor().title;
  }
  std::filesystem::remove_all(folder.path());
  Findings findings;
  const Evidence evidence = fixture::no_readings(copy);
  EXPECT_FALSE(run_rules(*part, copy, evidence, {}, findings).has_value());
  EXPECT_THAT(findings.findings(), SizeIs(1));
  part.reset();
  EXPECT_TRUE(is_mapped("outlived.ohmplug"));  // for the texts that point into it
  EXPECT_EQ(text_of_the_plugin, "Part for tests");
}

TEST(Registry, APartKeepsItsKindAlive) {
  const test::PluginFolder folder;
  folder.add("part_needs_its_kind");
  std::shared_ptr<const Part> part;
  Descriptor copy;
  {
    const Registry registry = registry_of(folder);
    const LoadedKind& kind = registry.kind("needy-part");
    std::vector<Problem> problems;
    part = kind.make_part(nullptr, problems);
    copy = kind.descriptor();
  }
  Findings findings;
  const auto failure = run_rules(*part, copy, fixture::no_readings(copy), {}, findings);
  EXPECT_FALSE(failure.has_value()) << failure->text;
}

TEST(Registry, CopiesOfManyPluginsDoNotGetMixedUp) {
  // Each is loaded through the number of an open file; numbers are given out again when a file is closed.
  for (int round = 0; round < 20; ++round) {
    const test::PluginFolder folder;
    folder.add("good");
    folder.add("two_kinds");
    const Registry registry = registry_of(folder);
    const bool good_first = round % 2 == 0;
    EXPECT_EQ(registry.kind(good_first ? "good-part" : "first-part").descriptor().id,
              good_first ? "good-part" : "first-part");
    EXPECT_EQ(registry.kind(good_first ? "first-part" : "good-part").descriptor().id,
              good_first ? "first-part" : "good-part");
  }
}

TEST(Registry, SeveralThreadsMayAskAtOnce) {
  const test::PluginFolder folder;
  folder.add("good");
  folder.add("two_kinds");
  const Registry registry = registry_of(folder);
  std::vector<std::thread> threads;
  for (int i = 0; i < 8; ++i)
    threads.emplace_back([&] {
      EXPECT_EQ(registry.kind("good-part").descriptor().id, "good-part");
      EXPECT_EQ(registry.kind("second").descriptor().id, "second-part");
    });
  for (std::thread& thread : threads) thread.join();
}

TEST(Registry, APluginThatThrowsWhileItMakesAPartLosesOnlyThatPart) {
  const test::PluginFolder folder;
  const auto path = folder.add("throws_in_make_part");
  const Registry registry = registry_of(folder);
  std::vector<Problem> problems;
  try {
    registry.kind("throws-in-make-part").make_part(nullptr, problems);
    ADD_FAILURE() << "a part was made";
  } catch (const PluginError& error) {
    EXPECT_EQ(
        error.what(),
        path.string() + ": plugin refused: making a part of the kind \"throws-in-make-part\" failed: too many leads");
  }
}

std::string refusal_to_make_a_part(const LoadedKind& kind) {
  std::vector<Problem> problems;
  try {
    kind.make_part(nullptr, problems);
    return "a part was made";
  } catch (const PluginError& error) {
    EXPECT_THAT(problems, IsEmpty());
    return error.what();
  }
}

TEST(Registry, AKindThatCannotMakeAPartWithoutRatingsSaysSoOrHasFailed) {
  const test::PluginFolder folder;
  const auto path = folder.add("needs_ratings");
  const Registry registry = registry_of(folder);
  const std::string refused = path.string() + ": plugin refused: making a part of the kind ";
  EXPECT_EQ(refusal_to_make_a_part(registry.kind("silent-without-ratings")),
            refused + "\"silent-without-ratings\" failed: it made none and named no problem");
  EXPECT_EQ(refusal_to_make_a_part(registry.kind("throws-without-ratings")),
            refused + "\"throws-without-ratings\" failed: nothing comes of nothing");
  const ValueNode ratings;
  std::vector<Problem> problems;
  for (const char* kind : {"silent-without-ratings", "throws-without-ratings"})
    EXPECT_NE(registry.kind(kind).make_part(&ratings, problems), nullptr) << kind;
}

TEST(Registry, AProblemThatAPluginNamesCannotDisturbATerminal) {
  const test::PluginFolder folder;
  folder.add("unprintable");
  const Registry registry = registry_of(folder);
  const ValueNode ratings;
  std::vector<Problem> problems{{"/own", 1, "ours\nstays"}};
  EXPECT_EQ(registry.kind("unprintable").make_part(&ratings, problems), nullptr);
  ASSERT_THAT(problems, SizeIs(2));
  EXPECT_EQ(problems[0].text, "ours\nstays");
  EXPECT_EQ(problems[1].pointer, "/curve\\n");
  EXPECT_EQ(problems[1].text, "line one\\nline two \\x1b[2J \\u202e backwards \\xff \"end\"");
}

}  // namespace
}  // namespace ohmwright
