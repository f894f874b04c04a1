// How kind files are found, trusted and refused, through the registry and the real plugin.

#include <sys/stat.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/guarded_judge.hpp>

#include "file_folder.hpp"
#include "kind_fixture.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// The test kind under another name, without its alias.
std::string coil_called(const std::string& id) {
  return coil_text({{"\"test-coil\"", '"' + id + '"'}, {"[\"spool\"]", "[]"}});
}

bool is_mapped(const std::string& file) {
  std::ifstream maps("/proc/self/maps");
  const std::string text((std::istreambuf_iterator<char>(maps)), std::istreambuf_iterator<char>());
  return text.find("/memfd:" + file) != std::string::npos;
}

std::vector<std::string> kinds_of(const Registry& registry) {
  std::vector<std::string> ids;
  for (const FoundPlugin& plugin : registry.plugins())
    for (const StampedKind& kind : plugin.kinds) ids.push_back(kind.id);
  return ids;
}

/// The one refused file's reasons.
std::vector<std::string> reasons(const Registry& registry) {
  EXPECT_THAT(registry.refused(), SizeIs(1));
  return registry.refused().empty() ? std::vector<std::string>() : registry.refused().front().reasons;
}

TEST(KindFiles, AreKnownWithoutLoadingThePluginThatReadsThem) {
  const FileFolder folder;
  folder.add_reader("stays/asked_late.ohmplug");
  const auto path = folder.add_file(coil_text(), "test-coil/test-coil.kind.json");
  const Registry registry = folder.registry();
  ASSERT_THAT(registry.plugins(), SizeIs(1));
  EXPECT_THAT(registry.refused(), IsEmpty());
  EXPECT_EQ(registry.plugins()[0].path, path);
  EXPECT_EQ(registry.plugins()[0].kinds, (std::vector<StampedKind>{{"test-coil", {"spool"}}}));
  EXPECT_FALSE(is_mapped("asked_late.ohmplug"));
  const LoadedKind& kind = registry.kind("Spool");
  EXPECT_TRUE(is_mapped("asked_late.ohmplug"));
  EXPECT_EQ(kind.descriptor().id, "test-coil");
  EXPECT_EQ(kind.path(), path);
  EXPECT_EQ(kind.ratings_folder(), path.parent_path() / "ratings");
  EXPECT_EQ(kind.vectors_folder(), path.parent_path() / "vectors");
  EXPECT_EQ(&registry.kind("test-coil"), &kind);
}

TEST(KindFiles, ComeWithLibrariesThoseInFoldersOfTheirNameFirstAndSorted) {
  const FileFolder folder;
  folder.add("good", "b/good.ohmplug");
  folder.add_reader("z/kind-file.ohmplug");
  for (const char* id : {"k9", "k10", "k1"})
    folder.add_file(coil_called(id), std::string(id) + "/" + id + ".kind.json");
  folder.add_file(coil_called("top"), "top.kind.json");
  folder.add_file(coil_called("deep"), "a/b/deep.kind.json");  // not looked at
  EXPECT_THAT(kinds_of(folder.registry()), ElementsAre("k1", "k10", "k9", "top", "good-part"));
  EXPECT_THAT(folder.registry().refused(), IsEmpty());
}

TEST(KindFiles, OfSeveralEachIsMadeByTheOnePlugin) {
  const FileFolder folder;
  folder.add_reader();
  folder.add_file(coil_called("first"), "first/first.kind.json");
  folder.add_file(coil_called("second"), "second/second.kind.json");
  const Registry registry = folder.registry();
  EXPECT_EQ(registry.kind("second").descriptor().id, "second");
  EXPECT_EQ(registry.kind("first").descriptor().id, "first");
  EXPECT_EQ(registry.kind("second").descriptor().text_domain, "ohmwright-second");
}

TEST(KindFiles, MustBeCalledAsTheirKind) {
  const FileFolder folder;
  folder.add_reader();
  folder.add_file(coil_text(), "test-coil/other.kind.json");
  EXPECT_THAT(reasons(folder.registry()), ElementsAre("line 2, /kind: the kind \"test-coil\" must stand in a file of "
                                                      "that name: test-coil.kind.json"));
}

TEST(KindFiles, ThatOthersCanWriteAreRefused) {
  const FileFolder folder;
  folder.add_reader();
  const auto path = folder.add_file(coil_text(), "test-coil/test-coil.kind.json");
  folder.set_mode(path, 0664);
  EXPECT_THAT(reasons(folder.registry()), ElementsAre("others can write to the file (mode 0664); if you trust what is "
                                                      "in it: chmod go-w " +
                                                      path.string()));
  folder.set_mode(path, 0644);
  folder.set_mode(path.parent_path(), 0777);
  EXPECT_THAT(reasons(folder.registry()),
              ElementsAre(HasSubstr("others can write to the folder " + path.parent_path().string() + " (mode 0777)")));
  folder.set_mode(path.parent_path(), 0755);
  EXPECT_EQ(refusal(folder.registry(), "test-coil"), "it was made");
}

TEST(KindFiles, OfAnotherUserAreRefused) {
  if (::geteuid() != 0) GTEST_SKIP() << "giving a file to another user takes root";
  const FileFolder folder;
  folder.add_reader();
  const auto path = folder.add_file(coil_text(), "test-coil/test-coil.kind.json");
  ASSERT_EQ(::chown(path.c_str(), 54321, 54321), 0);
  EXPECT_THAT(reasons(folder.registry()),
              ElementsAre("the file belongs to user 54321, neither to root nor to you (user "
                          "0); if you trust it: chown 0 " +
                          path.string()));
}

TEST(KindFiles, ThatAreNoFilesAreRefusedWithoutWaiting) {
  const FileFolder folder;
  folder.add_reader();
  ASSERT_EQ(::mkfifo((folder.path() / "pipe.kind.json").c_str(), 0600), 0);
  EXPECT_THAT(reasons(folder.registry()), ElementsAre("it is a pipe, not a regular file"));
}

TEST(KindFiles, OfOneNameAreRefusedFromTheSecondOn) {
  const FileFolder folder;
  folder.add_reader();
  const auto first = folder.add_file(coil_text(), "a/test-coil.kind.json");
  folder.add_file(coil_text(), "b/test-coil.kind.json");
  const Registry registry = folder.registry();
  EXPECT_THAT(kinds_of(registry), ElementsAre("test-coil"));
  EXPECT_THAT(
      reasons(registry),
      ElementsAre("the name of its kind \"test-coil\" and its alias \"spool\" are taken by the kind \"test-coil\" of " +
                  first.string() + "; remove one of the two"));
}

TEST(KindFiles, WithAnAliasOfALibraryAreRefused) {
  const FileFolder folder;
  folder.add_reader();
  const auto library = folder.add("good", "a.ohmplug");
  folder.add_file(coil_text({{"spool", "Well made part"}}), "files/test-coil.kind.json");
  EXPECT_THAT(reasons(folder.registry()), ElementsAre("its alias \"Well made part\" is taken by the kind \"good-part\" "
                                                      "of " +
                                                      library.string() + "; remove one of the two"));
}

TEST(KindFiles, WithoutThePluginThatReadsThemAreRefused) {
  const FileFolder folder;
  const auto path = folder.add_file(coil_text(), "test-coil/test-coil.kind.json");
  const Registry registry = folder.registry();
  EXPECT_THAT(kinds_of(registry), IsEmpty());
  EXPECT_THAT(reasons(registry), ElementsAre("no plugin that reads kind files was found beside it; install kind-file"));
  EXPECT_EQ(refusal(registry, "spool"), path.string() +
                                            ": kind file refused: no plugin that reads kind files was found "
                                            "beside it; install kind-file");
}

TEST(KindFiles, HaveOneReader) {
  const FileFolder folder;
  const auto first = folder.add_reader("a.ohmplug");
  folder.add_reader("b.ohmplug");
  EXPECT_THAT(reasons(folder.registry()),
              ElementsAre("kind files are read by " + first.string() + " already; remove one of the two"));
  std::filesystem::remove(folder.path() / "b.ohmplug");
  std::filesystem::create_symlink(first, folder.path() / "link.ohmplug");  // the same once more is no second one
  EXPECT_THAT(folder.registry().refused(), IsEmpty());
}

std::string refusal_with_reader(const std::string& reader, const std::string& title) {
  const FileFolder folder;
  folder.add(reader);
  folder.add_file(coil_text({{"Coil for tests", title}}), "test-coil/test-coil.kind.json");
  std::string text = refusal(folder.registry(), "test-coil");
  for (std::size_t at = text.find(folder.path().string()); at != std::string::npos;
       at = text.find(folder.path().string()))
    text.replace(at, folder.path().string().size(), "FOLDER");
  return text;
}

TEST(KindFiles, LoseTheirOwnKindAndNoMoreWhenTheirReaderFails) {
  const std::string refused = "FOLDER/test-coil/test-coil.kind.json: kind file refused: ";
  EXPECT_EQ(refusal_with_reader("reader", "fine"), refused +
                                                       "the alias \"spool\" is in its stamp but not in its "
                                                       "descriptor");
  EXPECT_EQ(refusal_with_reader("reader", "throws"),
            refused + "making the kind \"test-coil\" failed: no wish to read that");
  EXPECT_EQ(refusal_with_reader("reader", "gives nothing"), refused + "making the kind \"test-coil\" gave nothing");
  EXPECT_EQ(refusal_with_reader("reader", "cannot be shown"), refused + "line 2, /kind: red \\x1b[31m\\nand more");
  EXPECT_THAT(refusal_with_reader("reader", "is another"),
              HasSubstr("its descriptor is of \"another-part\", its stamp of \"test-coil\""));
  EXPECT_EQ(refusal_with_reader("reader_without_hook", "fine"),
            "FOLDER/reader_without_hook.ohmplug: plugin refused: its table has a null function");
}

TEST(KindFiles, MakePartsThatOutliveTheRegistry) {
  std::shared_ptr<const Part> part;
  std::vector<Problem> problems;
  const auto here = coil();  // the same kind, for its descriptor
  {
    const FileFolder folder;
    folder.add_reader();
    folder.add_file(coil_text(), "test-coil/test-coil.kind.json");
    const Registry registry = folder.registry();
    const Document ratings = parse_document(R"({"nominal": "82 ohm"})", "ratings");
    part = registry.kind("test-coil").make_part(&ratings.root, problems);
  }
  ASSERT_NE(part, nullptr);
  const Evidence evidence(here->descriptor(), readings_of(*here, {{"82 ohm", "25 degC"}}), meters());
  Findings findings;
  EXPECT_FALSE(run_rules(*part, here->descriptor(), evidence, {}, findings).has_value());
  EXPECT_THAT(findings.findings(), SizeIs(3));
  EXPECT_EQ(findings.findings()[0].outcome, Outcome::within_limits);
}

}  // namespace
}  // namespace ohmwright::kind_file
