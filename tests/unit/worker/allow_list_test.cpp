// What an entry of the list of allowed plugins permits, and what not.

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/digest.hpp>
#include <ohmwright/plugin/allowed/allow_list.hpp>
#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "../plugin/plugin_folder.hpp"

namespace ohmwright {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

std::string digest_of(const std::filesystem::path& file) {
  const std::vector<std::byte> bytes = test::bytes_of(file);
  return sha256_of(MemoryBytes(bytes));
}

AllowList list_of_one(const std::string& digest) {
  AllowList list;
  list.allow({digest, "somewhere", {"good-part"}});
  return list;
}

Registry registry_of(const test::PluginFolder& folder, AllowList list) {
  return {folder.list(), ::geteuid(), {.allowed = std::move(list), .worker = {}}};
}

// FIPS 180-4 examples of NIST: the messages "abc" and the empty one (from memory; sha256sum prints the same).
TEST(Digest, IsThatOfTheStandard) {
  const std::string abc = "abc";
  const auto* bytes = reinterpret_cast<const std::byte*>(abc.data());
  EXPECT_EQ(sha256_of(MemoryBytes({bytes, 3})), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_of(MemoryBytes({})), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_TRUE(is_sha256("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"));
  EXPECT_FALSE(is_sha256("E3B0"));
}

// As `b2sum --length 256` of the GNU core utilities prints it.
TEST(Digest, ByBlake2bIsThatOfAnotherProgram) {
  EXPECT_EQ(blake2b_of("abc"), "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
}

TEST(AllowList, TakesAFileThatOthersCanWriteToByItsBytes) {
  const test::PluginFolder folder;
  const auto file = folder.add("good");
  test::PluginFolder::set_mode(file, 0666);
  EXPECT_THAT(registry_of(folder, {}).plugins(), IsEmpty());
  const Registry registry = registry_of(folder, list_of_one(digest_of(file)));
  ASSERT_THAT(registry.plugins(), SizeIs(1));
  EXPECT_EQ(registry.kind("good-part").descriptor().title, "Part for tests");
}

TEST(AllowList, LooksIntoAFolderThatOthersCanWriteToOnlyForWhatItKnows) {
  const test::PluginFolder folder;
  const auto file = folder.add("good");
  folder.add("two_kinds");
  test::PluginFolder::set_mode(folder.path(), 0777);
  const Registry without = registry_of(folder, list_of_one(std::string(64, '0')));
  EXPECT_THAT(without.plugins(), IsEmpty());
  EXPECT_THAT(without.refused(), SizeIs(1)) << "the folder, once";
  const Registry with = registry_of(folder, list_of_one(digest_of(file)));
  EXPECT_THAT(with.plugins(), SizeIs(1));
  EXPECT_THAT(with.refused(), SizeIs(1)) << "the other file";
}

TEST(AllowList, OneOtherByteIsAnotherFile) {
  const test::PluginFolder folder;
  std::vector<std::byte> bytes = test::bytes_of(test::fixture("good"));
  const std::string digest = sha256_of(MemoryBytes(bytes));
  bytes.back() ^= std::byte{1};
  test::PluginFolder::set_mode(folder.write("good.ohmplug", bytes), 0666);
  EXPECT_THAT(registry_of(folder, list_of_one(digest)).plugins(), IsEmpty());
}

TEST(AllowList, AFileReplacedBetweenLookAndLoadIsRefused) {
  const test::PluginFolder folder;
  const auto file = folder.add("good");
  test::PluginFolder::set_mode(file, 0666);
  const Registry registry = registry_of(folder, list_of_one(digest_of(file)));
  ASSERT_THAT(registry.plugins(), SizeIs(1));
  test::PluginFolder::set_mode(folder.add("throws_in_judge", "good.ohmplug"), 0666);
  EXPECT_THROW(registry.kind("good-part"), PluginError);
}

TEST(AllowList, MayBeTheOnlyWayIn) {
  const test::PluginFolder folder;
  const auto file = folder.add("good");
  const auto with = [&](AllowList list, std::vector<std::filesystem::path> folders) {
    list.make_the_only_way();
    return Registry(folders, ::geteuid(), {.allowed = std::move(list), .worker = {}});
  };
  const std::vector<std::filesystem::path> outside{"/no/installation", folder.path()};
  ASSERT_THAT(Registry(outside, ::geteuid()).plugins(), SizeIs(1)) << "owner and mode are right";
  const Registry none = with({}, outside);
  EXPECT_THAT(none.plugins(), IsEmpty());
  ASSERT_THAT(none.refused(), SizeIs(1));
  EXPECT_THAT(none.refused()[0].reasons[0], testing::HasSubstr("it is not on the list of allowed plugins"));
  EXPECT_THAT(with(list_of_one(std::string(64, '0')), outside).plugins(), IsEmpty());
  EXPECT_THAT(with({}, {folder.path()}).plugins(), SizeIs(1)) << "what is installed is taken as ever";
  const Registry listed = with(list_of_one(digest_of(file)), outside);
  ASSERT_THAT(listed.plugins(), SizeIs(1));
  folder.add("throws_in_judge", "good.ohmplug");  // owner and mode are right, the bytes are others
  EXPECT_THROW(listed.kind("good-part"), PluginError);
}

TEST(AllowList, LiftsNothingElse) {
  const test::PluginFolder folder;
  const auto file = folder.add("abi_newer");
  test::PluginFolder::set_mode(file, 0666);
  const Registry registry = registry_of(folder, list_of_one(digest_of(file)));
  EXPECT_THAT(registry.plugins(), IsEmpty());
  ASSERT_THAT(registry.refused(), SizeIs(1));
  EXPECT_THAT(registry.refused()[0].reasons[0], testing::HasSubstr("it was built for plugin ABI 3"));
}

TEST(AllowList, ItsFileComesBackAsItWasAndMustBeTheUsersOwn) {
  const test::PluginFolder folder;
  const AllowList list = list_of_one(std::string(64, 'a'));
  const std::string text = list.text();
  const auto* bytes = reinterpret_cast<const std::byte*>(text.data());
  const auto file = folder.write("allowed-plugins.json", {bytes, bytes + text.size()});
  const AllowList read = read_allow_list(file, ::geteuid());
  EXPECT_TRUE(read.permits(std::string(64, 'a')));
  EXPECT_FALSE(read.permits(std::string(64, 'b')));
  EXPECT_EQ(read.text(), text);
  EXPECT_TRUE(read_allow_list(folder.path() / "no-such-file.json", ::geteuid()).empty());
  test::PluginFolder::set_mode(file, 0666);
  EXPECT_THROW(read_allow_list(file, ::geteuid()), InputError);
}

TEST(AllowList, RevokesByDigestPathOrKind) {
  for (const char* what : {"somewhere", "good-part"}) {
    AllowList list = list_of_one(std::string(64, 'a'));
    EXPECT_THAT(list.revoke(what), SizeIs(1)) << what;
    EXPECT_TRUE(list.empty());
  }
  AllowList list = list_of_one(std::string(64, 'a'));
  EXPECT_THAT(list.revoke("nothing"), IsEmpty());
  EXPECT_THAT(list.revoke(std::string(64, 'a')), SizeIs(1));
}

}  // namespace
}  // namespace ohmwright
