#include <gtest/gtest.h>

#include <ohmwright/job/service_call.hpp>

namespace ohmwright {
namespace {

using job::Entry;

Entry entry(const std::string& id, std::string_view form, const std::string& content,
            const std::string& corrects = {}) {
  return {id, std::string(form), "2026-01-01T00:00:0" + id + ".000Z", "", "who", "tool", corrects, content};
}

/// Ids of what would be taken back, one behind the other.
std::string last_answer(const std::vector<Entry>& entries) {
  std::string ids;
  for (const Entry* one : job::last_to_take_back(entries)) ids += one->id;
  return ids;
}

TEST(ServiceCall, IsToldFromItsEntries) {
  const std::vector<Entry> entries{
      entry("1", "opened", R"({"title":"Freezer warm","complaint":"milk is warm"})"),
      entry("2", "phone", R"({"tingles":"no"})"),
      entry("3", "reading", R"({"place":"heater-alone","shown":"OL","outcome":"out-of-limits","probability":0.01,
             "safety":[{"rule":"insulation","outcome":"undecided"}],"cautions":["prove-dead"]})"),
      entry("4", "visit", "{}"),
      entry("5", "note", R"({"text":"second day"})"),
      entry("6", "from a later version", R"({"text":"?"})"),
  };
  const job::ServiceCall call = job::told(entries);
  EXPECT_EQ(call.title, "Freezer warm");
  EXPECT_EQ(call.phone.at("tingles"), "no");
  ASSERT_EQ(call.readings.size(), 1U);
  EXPECT_EQ(call.readings[0].outcome, Outcome::out_of_limits);
  EXPECT_EQ(call.readings[0].safety.at(0).outcome, Outcome::undecided);
  EXPECT_EQ(call.readings[0].visit, 1U);
  EXPECT_EQ(call.notes.at(0).visit, 2U);
  EXPECT_EQ(call.cautions, std::vector<std::string>{"prove-dead"});
  EXPECT_EQ(call.state, job::JobState::open);
}

/// It waits until the log is there and says something; one that says nothing may be followed by another.
TEST(ServiceCall, WaitsForALogUntilThatIsThere) {
  std::vector<Entry> entries{entry("1", "opened", R"({"title":"a"})"),
                             entry("2", "checked", R"({"what":"log","outcome":"within-limits"})"),
                             entry("3", "state", R"({"state":"waiting-for-log"})")};
  EXPECT_EQ(job::told(entries).state, job::JobState::waits_for_log) << "that log was from before";
  entries.push_back(entry("4", "checked", R"({"what":"log","outcome":"undecided"})"));
  EXPECT_EQ(job::told(entries).state, job::JobState::waits_for_log);
  entries.push_back(entry("5", "checked", R"({"what":"log","outcome":"within-limits"})"));
  EXPECT_EQ(job::told(entries).state, job::JobState::open);
}

TEST(ServiceCall, AgreesToLiveWorkForTheVisitInWhichItWasAgreed) {
  std::vector<Entry> entries{entry("1", "opened", R"({"title":"a"})"), entry("2", "agreed", R"({"step":"volts"})")};
  EXPECT_TRUE(job::told(entries).agreed_to_live_work());
  entries.push_back(entry("3", "visit", "{}"));
  EXPECT_FALSE(job::told(entries).agreed_to_live_work());
}

TEST(ServiceCall, CanBeToldAsItStoodAtATime) {
  const std::vector<Entry> entries{entry("1", "opened", R"({"title":"a"})"), entry("2", "note", R"({"text":"early"})"),
                                   entry("3", "note", R"({"text":"late"})")};
  EXPECT_EQ(job::told_until(entries, entries[1].recorded).notes.size(), 1U);
}

TEST(ServiceCall, LeavesOutWhatWasTakenBackAndReadsACorrectionInItsPlace) {
  std::vector<Entry> entries{entry("1", "opened", R"({"title":"a"})"), entry("2", "note", R"({"text":"wrong"})"),
                             entry("3", "taken-back", "{}", "2"), entry("4", "note", R"({"text":"slip"})"),
                             entry("5", "note", R"({"text":"right"})", "4")};
  const job::ServiceCall call = job::told(entries);
  ASSERT_EQ(call.notes.size(), 1U);
  EXPECT_EQ(call.notes[0].text, "right");
  EXPECT_EQ(last_answer(entries), "5");
  EXPECT_TRUE(job::is_corrected(entries, entries[3]));
  EXPECT_FALSE(job::is_corrected(entries, entries[4]));
  entries.push_back(entry("6", "taken-back", "{}", "5"));
  EXPECT_EQ(last_answer(entries), "") << "the opening stays";
}

/// "2 3" to "What do you see?" is two symptoms and a stage, and one answer.
TEST(ServiceCall, TakesAnAnswerBackWithAllThatWasWrittenDownTogether) {
  std::vector<Entry> entries{entry("1", "opened", R"({"title":"a"})"),
                             entry("2", "evidence", R"({"act":"2","option":"--symptom","word":"no-heat"})"),
                             entry("3", "evidence", R"({"act":"2","option":"--symptom","word":"long-defrost"})"),
                             entry("4", "stage", R"({"act":"2","stage":"looked"})"),
                             entry("5", "note", R"({"text":"n"})")};
  EXPECT_EQ(last_answer(entries), "5");
  entries.push_back(entry("6", "taken-back", "{}", "5"));
  EXPECT_EQ(last_answer(entries), "234");
  entries.push_back(entry("7", "taken-back", R"({"act":"7"})", "3"));
  entries.push_back(entry("8", "state", R"({"act":"7","state":"open"})"));
  EXPECT_EQ(last_answer(entries), "24") << "not what was written with a taking back, nor what is back already";
  EXPECT_EQ(job::told(entries).evidence.size(), 1U);
}

}  // namespace
}  // namespace ohmwright
