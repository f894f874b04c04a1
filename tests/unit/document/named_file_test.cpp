#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/document/named_file.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

using testing::refusal_of;
using testing::TemporaryFolder;

TEST(NamedFile, IsFoundHoweverItsNameIsSaid) {
  const TemporaryFolder folder;
  folder.write("class-10k-b1.json", "");
  for (const char* said : {"class-10k-b1", "CLASS-10K-B1", "Class_10k_B1", "class 10K b1"})
    EXPECT_EQ(named_file(folder.path(), said, "ratings"), folder.path("class-10k-b1.json")) << said;
}

TEST(NamedFile, OfItsVeryNameComesFirst) {
  const TemporaryFolder folder;
  folder.write("Basic.json", "");
  folder.write("basic.json", "");
  EXPECT_EQ(named_file(folder.path(), "basic", "meter"), folder.path("basic.json"));
  EXPECT_EQ(named_file(folder.path(), "Basic", "meter"), folder.path("Basic.json"));
}

TEST(NamedFile, IsLookedForInSeveralFolders) {
  const TemporaryFolder first;
  const TemporaryFolder second;
  first.write("a.json", "");
  second.write("b.json", "");
  const std::vector<std::string> folders{first.path(), second.path()};
  EXPECT_EQ(named_file(folders, "b", "ratings"), second.path("b.json"));
  EXPECT_EQ(refusal_of([&] { named_file(folders, "xyz", "ratings"); }),
            R"(there is no ratings "xyz"; there is "a" or "b")");
  EXPECT_EQ(refusal_of([&] { named_file(std::vector<std::string>{}, "x", "ratings"); }), R"(there is no ratings "x")");
}

TEST(NamedFile, IsRefusedInTextForATerminal) {
  const TemporaryFolder folder;
  const std::string said = refusal_of([&] { named_file(folder.path("a\x1b[31m"), "b\n\a", "meter"); });
  EXPECT_EQ(said, "there is no meter \"b\\n\\x07\" in " + folder.path("a\\x1b[31m") + ", which holds no JSON files");
}

TEST(NamedFile, APathSaysThatItIsOne) {
  for (const char* path : {"-", "a.json", "./a", "/a/b", ".", ".."}) EXPECT_TRUE(is_path(path)) << path;
  for (const char* name : {"basic", "class-10k", ""}) EXPECT_FALSE(is_path(name)) << name;
}

}  // namespace
}  // namespace ohmwright
