// Which check is named where the process that tries a kind does not come to its own end.

#include "plugin/trial_diary.hpp"

#include <array>
#include <functional>
#include <string>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright::cli {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

const KitCheck first{"ratings", "its classes of ratings are right", {}};
const KitCheck second{"vectors", "its vectors give the verdicts they expect", {}};

/// Writes a diary and reads it back; `told` gets the ids of the checks that came to an end.
Diary diary_of(const std::function<void(const DiaryWriter&)>& write, std::vector<std::string>& told) {
  std::array<int, 2> ends{};
  EXPECT_EQ(::pipe(ends.data()), 0);
  write(DiaryWriter(ends[1]));
  ::close(ends[1]);
  Diary diary = read_diary(
      ends[0], {[&told](const TriedCheck& check) { told.push_back(check.id); }, [](const std::string& /*note*/) {}});
  ::close(ends[0]);
  return diary;
}

TEST(TrialDiary, NamesTheCheckThatWasGoingOn) {
  std::vector<std::string> told;
  const Diary diary = diary_of(
      [](const DiaryWriter& writer) {
        writer.begins(first);
        writer.ends(first);
        writer.begins(second);
      },
      told);
  const TriedCheck ended = check_that_was_ended(diary, "it was killed");
  EXPECT_EQ(ended.id, "vectors");
  EXPECT_THAT(ended.to_mend, ElementsAre("it was killed"));
  EXPECT_THAT(told, ElementsAre("ratings"));
}

TEST(TrialDiary, BlamesNoCheckThatHadEnded) {
  std::vector<std::string> told;
  const Diary diary = diary_of(
      [](const DiaryWriter& writer) {
        writer.begins(first);
        writer.ends(first);
      },
      told);
  const TriedCheck ended = check_that_was_ended(diary, "it was killed");
  EXPECT_EQ(ended.id, "process");
  EXPECT_THAT(ended.to_mend, ElementsAre(HasSubstr("between two checks, after \"ratings\": it was killed")));
  EXPECT_THAT(told, ElementsAre("ratings"));
}

TEST(TrialDiary, BlamesNoCheckBeforeTheFirst) {
  std::vector<std::string> told;
  const TriedCheck ended = check_that_was_ended(diary_of([](const DiaryWriter& /*writer*/) {}, told), "it ended");
  EXPECT_EQ(ended.id, "process");
  EXPECT_THAT(ended.to_mend, ElementsAre(HasSubstr("before the first check: it ended")));
}

}  // namespace
}  // namespace ohmwright::cli
