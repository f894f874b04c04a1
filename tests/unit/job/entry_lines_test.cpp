#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/job/entry_lines.hpp>

#include "book_fixture.hpp"

namespace ohmwright {
namespace {

using job::entry_line;
using job::MovedEntry;
using ::testing::HasSubstr;
using testing::refusal_of;

/// A moment after all that these lines say.
constexpr std::int64_t noon_of_new_year_2026 = 1'767'268'800'000;

std::vector<MovedEntry> entries_of_lines(std::string_view lines, const std::string& file) {
  return job::entries_of_lines(lines, file, noon_of_new_year_2026);
}

MovedEntry moved(const std::string& text) {
  return {"00000000-0000-4000-8000-000000000001",
          {"00000000-0000-4000-8000-000000000002", "note", "2026-01-01T00:00:00.000Z", "", "somebody \"else\"", "tool",
           "", job::ContentWriter().text("text", text).content()}};
}

TEST(EntryLines, AreOneLineEachAndReadBackAsTheyWere) {
  for (const std::string& text :
       {std::string("plain"), std::string("<script>alert(1)</script>"), std::string("'; DROP TABLE entry; --"),
        std::string("a\nb\tc\x1b[31m"), std::string("\u202eright to left \u0645"), std::string(4000, 'x')}) {
    const std::string line = entry_line(moved(text));
    EXPECT_EQ(std::count(line.begin(), line.end(), '\n'), 1) << text;
    const std::vector<MovedEntry> back = entries_of_lines("\n" + line + " \r\n" + line, "f");
    ASSERT_EQ(back.size(), 2U);
    EXPECT_EQ(back[0].entry, moved(text).entry);
    EXPECT_EQ(back[0].job, moved(text).job);
  }
}

TEST(EntryLines, AreRefusedWithTheNumberOfTheLine) {
  const std::string good = entry_line(moved("a"));
  const auto refusal = [&](const std::string& bad) {
    return refusal_of([&] { (void)entries_of_lines(good + bad + "\n", "book.jsonl"); });
  };
  EXPECT_THAT(refusal("{"), HasSubstr("book.jsonl:2:"));
  EXPECT_THAT(refusal("[]"), HasSubstr("book.jsonl:2:"));
  std::string wrong = good;
  wrong.replace(wrong.find("2026-01-01"), 10, "2026-02-30");
  EXPECT_THAT(refusal(wrong), HasSubstr("there is no such time"));
  wrong = good;
  wrong.replace(wrong.find("2026-01-01"), 10, "2026-01-03");
  EXPECT_THAT(refusal(wrong), HasSubstr("more than a day ahead"));
  wrong.replace(wrong.find("2026-01-03"), 10, "9999-12-31");
  EXPECT_THAT(refusal(wrong), HasSubstr("more than a day ahead"));
  wrong.replace(wrong.find("9999-12-31"), 10, "2026-01-02");
  EXPECT_EQ(refusal(wrong), "") << "a clock of another time zone";
  wrong = good;
  wrong.replace(wrong.find("\"note\""), 6, "\"gone\"");
  EXPECT_THAT(refusal(wrong), HasSubstr("/form"));
  wrong = good;
  wrong.replace(wrong.find("00000000-"), 9, "z0000000-");
  EXPECT_THAT(refusal(wrong), HasSubstr("/job"));
  EXPECT_NE(refusal(std::string(5U << 20U, '[')), "");
}

/// What is read from an entry is looked at before it comes in: a state, an option, an outcome that are none.
TEST(EntryLines, AreRefusedWithContentThatSaysNothing) {
  const auto refusal = [](const std::string& form, const std::string& content) {
    MovedEntry entry = moved("a");
    entry.entry.form = form;
    entry.entry.content = content;
    return refusal_of([&] { (void)entries_of_lines(entry_line(entry), "book.jsonl"); });
  };
  EXPECT_EQ(refusal("state", R"({"state":"repaired","reason":"r"})"), "");
  EXPECT_THAT(refusal("state", R"({"state":5})"), HasSubstr("/content/state"));
  EXPECT_THAT(refusal("state", R"({"state":"nonsense"})"), HasSubstr("/content/state"));
  EXPECT_THAT(refusal("state", "{}"), HasSubstr("state"));
  EXPECT_EQ(refusal("evidence", R"({"option":"--symptom","word":"no-heat"})"), "");
  EXPECT_THAT(refusal("evidence", R"({"option":"--allow-live"})"), HasSubstr("/content/option"));
  EXPECT_THAT(refusal("checked", R"({"what":"earth-bond","outcome":"good"})"), HasSubstr("/content/outcome"));
  EXPECT_EQ(refusal("mended", R"({"part":"splice","mended":"crimped anew"})"), "");
  EXPECT_THAT(refusal("mended", R"({"part":"splice"})"), HasSubstr("mended"));
  EXPECT_THAT(refusal("stage", R"({"stage":"later"})"), HasSubstr("/content/stage"));
  EXPECT_THAT(refusal("reading", R"({"place":"p","shown":"1","safety":[{"rule":"insulation"}]})"),
              HasSubstr("/content/safety"));
  EXPECT_EQ(refusal("reading", R"({"place":"p","shown":"1","of a later version":[1]})"), "");
  EXPECT_THAT(refusal("phone", R"({"tingles":1})"), HasSubstr("/content/tingles"));
}

TEST(ContentWriter, TakesNoTextThatABookCannotKeep) {
  const auto refusal = [](const std::string& text) {
    return refusal_of([&] { (void)job::ContentWriter().text("text", text); });
  };
  EXPECT_THAT(refusal(std::string(1U << 20U, 'x')), HasSubstr("a text of 1048576 bytes is too long"));
  EXPECT_THAT(refusal("\xff"), HasSubstr("no UTF-8"));
  EXPECT_THAT(refusal(std::string("a\0b", 3)), HasSubstr("NUL"));
  EXPECT_EQ(job::ContentWriter().content(), "{}");
  EXPECT_EQ(job::ContentWriter().text("a", "").flag("b", false).content(), "{}");
  EXPECT_EQ(job::ContentWriter().text("a", "1").flag("b", true).texts("c", std::vector<std::string>{"x"}).content(),
            R"({"a":"1","b":true,"c":["x"]})");
}

}  // namespace
}  // namespace ohmwright
