// Batches through the real program: records, refusals, shards, threads, and runs that are killed.

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "../unit/document/temporary_folder.hpp"
#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using testing::bytes_of;
using ::testing::HasSubstr;
using testing::Ran;
using testing::run_program;
using ::testing::StartsWith;
using testing::TemporaryFolder;

const std::vector<std::string> sensors{"--kind", "thermistor", "--ratings", "ntc-10k-b3977"};

Ran batch(std::vector<std::string> words, const std::string& input = {}) {
  words.insert(words.begin(), "batch");
  words.insert(words.end(), sensors.begin(), sensors.end());
  return run_program(words, {}, input);
}

std::vector<nlohmann::json> records_of(const std::string& out) {
  std::vector<nlohmann::json> records;
  std::istringstream lines(out);
  for (std::string line; std::getline(lines, line);) {
    records.push_back(nlohmann::json::parse(line));
    EXPECT_TRUE(batch_record_schema().problems(parse_document(line, "record").root).empty()) << line;
  }
  return records;
}

/// Sensors of four lots at 23 degC, values from 10.2 to 11.7 kohm; every 97th line is none.
std::string population(int count) {
  std::string text;
  for (int i = 0; i < count; ++i) {
    char line[240];
    const int length =
        i % 97 == 50
            ? std::snprintf(line, sizeof line, "{\"id\":\"s-%d\",\"readings\":[{\"value\":\"%d kohmm\"}]}\n", i, i)
            : std::snprintf(line, sizeof line,
                            "{\"id\":\"s-%d\",\"lot\":\"L%d\",\"readings\":[{\"value\":\"%.3f kohm\","
                            "\"connection\":\"lead-off\",\"conditions\":{\"part_temperature\":\"%.1f degC +- "
                            "0.3 K\"}}]}\n",
                            i, i % 4, 10.2 + 0.001 * (i * 7919 % 1500), 22.5 + 0.1 * (i % 11));
    text.append(line, static_cast<std::size_t>(length));
  }
  return text;
}

TEST(Batch, SaysOfEachLineWhatCheckSaysOfIt) {
  const Ran ran = batch(
      {},
      R"({"id":"a","readings":[{"value":"33.1 kohm","connection":"lead-off","conditions":{"part_temperature":"0 degC +- 0.2 K"}}]}
{"id":"b","lot":"L1","readings":[{"value":"OL"}]}

{"id":"c","readings":[{"value":"11 lumps"}]}
{"id":"d","kind":"heater","ratings":"heater-450w-120v","readings":[{"value":"32 ohm","connection":"lead-off"}]}
not json
{"id":"e","readings":[{"value":"11.45 kohm","conditions":{"part_temperature":"23 degC"}}]})");
  EXPECT_EQ(ran.exit_code, 0);
  const auto records = records_of(ran.out);
  ASSERT_EQ(records.size(), 6U);
  EXPECT_EQ(records[0]["verdict"], "within-limits");
  EXPECT_EQ(records[0]["line"], 1);
  EXPECT_EQ(records[0]["file"], "standard input");
  EXPECT_EQ(records[1]["lot"], "L1");
  EXPECT_EQ(records[2]["line"], 4);
  EXPECT_EQ(records[2]["id"], "c");
  EXPECT_THAT(records[2]["error"], HasSubstr("/readings/0/value"));
  EXPECT_EQ(records[3]["kind"], "heater");
  EXPECT_THAT(records[4]["error"], HasSubstr("expected a value"));
  EXPECT_EQ(records[5]["verdict"], "undecided");
  EXPECT_THAT(ran.err, HasSubstr("Parts judged: 4. Lines refused: 2."));

  const Ran checked = run_program({"check", "thermistor", "33.1k", "--at", "0C +- 0.2K", "--lead-off", "--ratings",
                                   "ntc-10k-b3977", "--format", "json"});
  const auto verdict = nlohmann::json::parse(checked.out);
  EXPECT_EQ(records[0]["probability_within"], verdict["probability_within"]);
  std::vector<nlohmann::json> spoke;
  for (nlohmann::json reason : verdict["reasons"]) {
    reason.erase("text");
    if (reason["verdict"] != "silent") spoke.push_back(std::move(reason));
  }
  EXPECT_EQ(nlohmann::json(spoke), records[0]["reasons"]);
}

TEST(Batch, ReadsTablesAsItReadsLines) {
  const Ran lines = batch(
      {},
      R"({"id":"a","lot":"x","readings":[{"value":"11.45 kohm","connection":"lead-off","conditions":{"part_temperature":"23 degC"}}]}
{"id":"b","readings":[{"value":"OL","conditions":{"part_temperature":"23.5 degC"}}]}
{"id":"c","readings":[{"value":"ten"}]})");
  const Ran table = batch(
      {}, "id;lot;resistance [kohm];at/degC;connection\na;x;11,45;23;lead-off\r\n# a remark\nb;;OL;23.5;\nc;;ten;;\n");
  const auto from_lines = records_of(lines.out);
  auto from_table = records_of(table.out);
  ASSERT_EQ(from_table.size(), 3U);
  EXPECT_EQ(from_table[0]["line"], 2);
  EXPECT_EQ(from_table[1]["line"], 4);
  for (std::size_t i = 0; i < 3; ++i) from_table[i]["line"] = i + 1;
  for (std::size_t i = 0; i < 2; ++i) EXPECT_EQ(from_table[i], from_lines[i]);
  EXPECT_THAT(from_table[2]["error"], HasSubstr("got \"ten\""));
}

// RFC 4180, 2.5 to 2.7: a cell is quoted whole or not at all, and a quote within is doubled; 2.4: each row has as many
// cells as the first
TEST(Batch, RefusesRowsThatAreCutOrHalfQuoted) {
  const std::vector<std::string> wrong{R"(s1,"11.45" kohm,23,lead-off)", R"(s1,"11"."45",23,lead-off)",
                                       R"("a" "b",11449.8,23,)"};
  std::string table = "id,resistance [ohm],at [degC],connection\n";
  for (const std::string& row : wrong) table += row + "\n";
  table += R"(s1,"11449.8",23,lead-off
s1,11449.8,23,lead-off
s1,"11449.8" ,23,lead-off
"a ""b""",11449.8,23,
s1,11449.8
s1,11449.8,23,lead-off,5
)";
  const auto records = records_of(batch({}, table).out);
  ASSERT_EQ(records.size(), 9U);
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_THAT(records[i]["error"], HasSubstr("text stands behind a closing quote")) << wrong[i];
  EXPECT_EQ(records[3]["reasons"], records[4]["reasons"]);
  EXPECT_EQ(records[5]["reasons"], records[4]["reasons"]);  // blanks between cells are none of them
  EXPECT_EQ(records[6]["id"], R"(a "b")");
  EXPECT_THAT(records[7]["error"], HasSubstr("2 cells, the table 4 columns"));
  EXPECT_THAT(records[8]["error"], HasSubstr("5 cells, the table 4 columns"));
}

TEST(Batch, TakesAConditionByItsOptionAndSaysWhereAConnectionStands) {
  const auto records = records_of(
      batch({}, R"({"readings":[{"value":"11.45 kohm","connection":"lead-off","conditions":{"at":"23 degC"}}]}
{"readings":[{"value":"11.45 kohm","connection":"lead-off","conditions":{"part_temperature":"23 degC"}}]}
{"readings":[{"value":"11.45 kohm","conditions":{"at":"23 degC","connection":"lead-off"}}]}
{"readings":[{"value":"11.45 kohm","conditions":{"at":"23 degC","part_temperature":"23 degC"}}]})")
          .out);
  ASSERT_EQ(records.size(), 4U);
  EXPECT_EQ(records[0]["reasons"], records[1]["reasons"]);
  EXPECT_THAT(records[2]["error"], HasSubstr("is said of the reading itself, beside"));
  EXPECT_THAT(records[3]["error"], HasSubstr("are one condition"));
}

TEST(Batch, TakesNoLiveReadingUnlessItWasAgreedTo) {
  const std::string line = R"({"kind":"heater","readings":[{"measurand":"current","value":"3.6 A","supply":"live"}]})";
  EXPECT_THAT(records_of(batch({}, line).out)[0]["error"], HasSubstr("live"));
  EXPECT_TRUE(records_of(batch({"--live-agreed"}, line).out)[0].contains("verdict"));
}

TEST(Batch, NeverOpensAFileThatALineNames) {
  const Ran ran = batch({}, R"({"ratings":"/etc/hostname","readings":[{"value":"11 kohm"}]})");
  EXPECT_THAT(records_of(ran.out)[0]["error"], HasSubstr("/ratings"));
}

TEST(Batch, GivesTheSameBytesWithThreadsShardsAndGzip) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(30000));  // some four blocks
  const Ran one = batch({input, "--summary", folder.path("one.json")});
  ASSERT_EQ(one.exit_code, 0);
  EXPECT_EQ(batch({input, "--threads", "4"}).out, one.out);

  std::string joined;
  std::vector<std::string> merge{"batch", "--merge", "--summary", folder.path("merged.json")};
  for (int shard = 1; shard <= 3; ++shard) {
    const std::string number = std::to_string(shard);
    joined += batch({input, "--shard", number + "/3", "--summary", folder.path(number + ".json")}).out;
    merge.push_back(folder.path(number + ".json"));
  }
  EXPECT_EQ(joined, one.out);
  const Ran merged = run_program(merge);
  EXPECT_EQ(merged.exit_code, 0);
  EXPECT_EQ(bytes_of(folder.path("merged.json")), bytes_of(folder.path("one.json")));
  EXPECT_EQ(one.err.substr(0, merged.out.size()), merged.out);
  EXPECT_THAT(one.err.substr(merged.out.size()), StartsWith("First line refused: "));
  EXPECT_TRUE(batch_summary_schema().problems(read_document(folder.path("one.json")).root).empty());

  ASSERT_EQ(std::system(("gzip -k " + input).c_str()), 0);
  const Ran zipped = batch({input + ".gz"});
  std::string records;
  std::size_t begin = 0;
  for (std::size_t at = 0; (at = zipped.out.find(".jsonl.gz", begin)) != std::string::npos; begin = at + 9)
    records.append(zipped.out, begin, at + 6 - begin);
  records.append(zipped.out, begin);
  EXPECT_TRUE(records == one.out);
  const auto total = [](const Ran& ran) { return ran.err.substr(0, ran.err.find('\n')); };
  EXPECT_EQ(total(zipped), total(one));
  std::filesystem::resize_file(input + ".gz", 80000);
  const Ran cut = batch({input + ".gz", "--summary", folder.path("cut.json")});
  EXPECT_EQ(cut.exit_code, 2) << "most readings are lost";
  EXPECT_THAT(cut.out, HasSubstr("is cut or damaged"));
  EXPECT_THAT(cut.err, HasSubstr("Compressed files that are cut or damaged: 1."));
  const Ran added = run_program({"batch", "--merge", folder.path("cut.json")});
  EXPECT_EQ(added.exit_code, 2);
  EXPECT_THAT(added.out, HasSubstr("Compressed files that are cut or damaged: 1."));
}

/// How much of the output a journal keeps [bytes]; 0 without a journal.
std::uint64_t kept_bytes(const std::string& journal) {
  const nlohmann::json read = nlohmann::json::parse(bytes_of(journal), nullptr, false);
  return read.is_discarded() ? 0 : read["output_bytes"].get<std::uint64_t>();
}

/// Runs the program and kills it as soon as the journal keeps more than at its start; whether it was killed before its
/// end. The journal, not a clock, says when: a program that is quick or slow is met in the midst of its work.
bool run_and_kill(const std::vector<std::string>& words, const std::string& journal) {
  const std::uint64_t kept_before = kept_bytes(journal);
  const pid_t child = ::fork();
  if (child == 0) {
    std::vector<std::string> all = words;
    std::vector<char*> pointers;
    for (std::string& word : all) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    std::freopen("/dev/null", "w", stdout);
    std::freopen("/dev/null", "w", stderr);
    ::execv(pointers[0], pointers.data());
    ::_exit(127);
  }
  int status = 0;
  while (kept_bytes(journal) <= kept_before) {
    if (::waitpid(child, &status, WNOHANG) == child) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  ::kill(child, SIGKILL);
  ::waitpid(child, &status, 0);
  return WIFSIGNALED(status);
}

TEST(Batch, APointThatMaySetOffThousandsIsRefusedBetweenSemicolons) {
  const TemporaryFolder folder;
  const std::string table = folder.write("in.csv",
                                         "id;resistance [ohm];at [degC];connection\n"
                                         "s1;10.700;23,5;lead-off\ns2;10700;23,5;lead-off\ns3;10.7 kohm;23,5;lead-off\n"
                                         "s4;10.700;23;lead-off\n");
  const auto records = records_of(batch({table}).out);
  ASSERT_EQ(records.size(), 4U);
  for (const std::size_t refused : {std::size_t{0}, std::size_t{3}})
    EXPECT_THAT(records[refused]["error"],
                HasSubstr("\"10.700\" may be 10700 or 10,700: where ; parts the cells a comma "
                          "is decimal"));
  EXPECT_EQ(records[1]["verdict"], "within-limits");
  EXPECT_EQ(records[2]["verdict"], "within-limits");
}

TEST(Batch, SoItIsInASeries) {
  const TemporaryFolder folder;
  const std::string series = folder.write("s.csv", "resistance [ohm];at [degC]\n10.700;23,5\n32600;0,0\n");
  const Ran ran = run_program({"check", "thermistor", "--series", series, "--ratings", "ntc-10k-b3977"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("s.csv:2: resistance: \"10.700\" may be 10700 or 10,700"));
}

TEST(Batch, ColumnsAreNamedAsOptionsAreAndTheFirstRefusalIsTold) {
  const TemporaryFolder folder;
  const std::string table = folder.write("in.csv",
                                         "Id,Resistance [k\xCE\xA9],AT [\xC2\xB0"
                                         "C],Connection\ns1,11.0,23,lead-off\n");
  const auto records = records_of(batch({table}).out);
  ASSERT_EQ(records.size(), 1U);
  EXPECT_EQ(records[0]["verdict"], "within-limits") << records[0];
  EXPECT_EQ(records[0]["id"], "s1");
  const Ran refused = batch({folder.write("wrong.csv", "id,ohms\ns1,11000\ns2,11000\n")});
  EXPECT_EQ(refused.exit_code, 2);
  EXPECT_THAT(refused.err,
              AllOf(HasSubstr("First line refused: "), HasSubstr("wrong.csv, line 2:"), HasSubstr("ohms")));
}

TEST(Batch, RecordsAndSummaryAreTwoFilesAndNoneThatIsRead) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(3));
  const std::string same = folder.path("same");
  const std::string also_same = folder.path("./same");
  const Ran both = batch({input, "--out", same, "--summary", also_same});
  EXPECT_EQ(both.exit_code, 2);
  EXPECT_THAT(both.err, HasSubstr("--out and --summary would both write"));
  EXPECT_FALSE(std::filesystem::exists(same)) << "told before anything is judged";
  const std::string summary = folder.path("one.json");
  ASSERT_EQ(batch({input, "--out", folder.path("one.jsonl"), "--summary", summary}).exit_code, 0);
  const std::string before = bytes_of(summary);
  const Ran merged = testing::run_program({"batch", "--merge", summary, "--summary", summary});
  EXPECT_EQ(merged.exit_code, 2);
  EXPECT_THAT(merged.err, HasSubstr("--summary would overwrite"));
  EXPECT_EQ(bytes_of(summary), before);
}

TEST(Batch, GoesOnAfterAKillWithTheBytesOfAnUnbrokenRun) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(60000));
  const std::string whole = folder.path("whole.jsonl");
  const std::string broken = folder.path("broken.jsonl");
  ASSERT_EQ(batch({input, "--out", whole, "--summary", folder.path("whole.json")}).exit_code, 0);
  std::vector<std::string> words{OHMWRIGHT_PROGRAM, "batch", input, "--out", broken, "--resume", "--threads", "2"};
  words.insert(words.end(), sensors.begin(), sensors.end());
  for (int kill = 1; kill <= 2; ++kill) {
    ASSERT_TRUE(run_and_kill(words, broken + ".journal")) << "kill " << kill;
    EXPECT_FALSE(std::filesystem::exists(broken));
  }
  const Ran last = batch({input, "--out", broken, "--resume", "--threads", "2", "--summary", folder.path("b.json")});
  EXPECT_EQ(last.exit_code, 0) << last.err;
  EXPECT_TRUE(bytes_of(broken) == bytes_of(whole));
  EXPECT_EQ(bytes_of(folder.path("b.json")), bytes_of(folder.path("whole.json")));
  EXPECT_FALSE(std::filesystem::exists(broken + ".journal"));
  EXPECT_FALSE(std::filesystem::exists(broken + ".unfinished"));
}

TEST(Batch, FoldersOfLogsGoTheSameWay) {
  const TemporaryFolder folder;
  std::string log = "Time;Power (W);Coil (\u00B0C)\n";
  for (int minute = 0; minute < 600; ++minute)
    log += "2026-03-02 " + std::to_string(10 + minute / 60) + ":" + std::to_string(10 + minute % 50) + ";" +
           (minute % 41 < 22 ? "95;-24\n" : "2;-18\n");
  std::filesystem::create_directory(folder.path("logs"));
  for (const char* name : {"logs/a.csv", "logs/b.csv", "logs/c.csv"}) folder.write(name, log);
  folder.write("logs/d.csv", "no table at all");
  const std::string logs = folder.path("logs");
  const Ran whole = run_program({"log", logs});
  EXPECT_EQ(whole.exit_code, 0) << whole.err;
  EXPECT_EQ(std::count(whole.out.begin(), whole.out.end(), '\n'), 4);
  EXPECT_THAT(whole.err, AllOf(HasSubstr("Logs read: 3"), HasSubstr("Refused: 1.")));
  EXPECT_THAT(whole.out, HasSubstr("holds no rows of a log"));
  std::istringstream lines(whole.out);
  std::string first;
  std::getline(lines, first);
  const Ran alone = run_program({"log", folder.path("logs/a.csv"), "--format", "json"});
  EXPECT_EQ(nlohmann::json::parse(first)["log"], nlohmann::json::parse(alone.out));
  std::string joined;
  for (const char* shard : {"1/3", "2/3", "3/3"}) joined += run_program({"log", logs, "--shard", shard}).out;
  EXPECT_EQ(joined, whole.out);
}

TEST(Batch, RefusesToGoOnWithAnotherRun) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(10));
  const std::string out = folder.path("out.jsonl");
  folder.write("out.jsonl.unfinished", "");
  folder.write("out.jsonl.journal", R"({"made_from":["other"],"finished":{"file":0,"byte":0,"lines":0},)"
                                    R"("output_bytes":0,"summary":{"judged":0,"refused":0,"cut_short":0,"kinds":[]}})");
  const Ran ran = batch({input, "--out", out, "--resume"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("is of another run"));
  const Ran unasked = batch({input, "--out", out});
  EXPECT_EQ(unasked.exit_code, 2);
  EXPECT_THAT(unasked.err, HasSubstr("go on with it (--resume)"));
  folder.write("out.jsonl.journal", R"({"made_from": ["other"], "finished": {"fi)");
  EXPECT_THAT(batch({input, "--out", out, "--resume"}).err, HasSubstr("remove it to begin anew"));
  std::filesystem::remove(out + ".journal");
  EXPECT_EQ(batch({input, "--out", out}).exit_code, 0);
  EXPECT_THAT(batch({input, "--out", out, "--resume"}).err, HasSubstr("nothing says of which run it is"));
}

TEST(Batch, DoesNothingWhereTheSameRunIsDone) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(200));
  const std::string out = folder.path("out.jsonl");
  const std::string summary = folder.path("s.json");
  const std::vector<std::string> words{input, "--out", out, "--resume", "--summary", summary};
  EXPECT_EQ(batch(words).exit_code, 0);
  const std::string records = bytes_of(out);
  const std::string sums = bytes_of(summary);
  std::filesystem::remove(summary);
  EXPECT_EQ(batch(words).exit_code, 0);
  EXPECT_EQ(bytes_of(out), records);
  EXPECT_EQ(bytes_of(summary), sums);
  EXPECT_FALSE(std::filesystem::exists(out + ".unfinished"));
  const std::string other = folder.write("other.jsonl", population(20));
  EXPECT_THAT(batch({other, "--out", out, "--resume"}).err, HasSubstr("is of another run"));
  EXPECT_EQ(bytes_of(out), records);

  // The end comes between the records' name and the journal's, and before both.
  std::filesystem::rename(out + ".done", out + ".journal");
  EXPECT_EQ(batch(words).exit_code, 0);
  EXPECT_TRUE(std::filesystem::exists(out + ".done"));
  std::filesystem::rename(out + ".done", out + ".journal");
  std::filesystem::rename(out, out + ".unfinished");
  EXPECT_EQ(batch(words).exit_code, 0);
  EXPECT_EQ(bytes_of(out), records);
}

TEST(Batch, GoesOnWithNothingThatHasChanged) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(50));
  const std::string shipped = std::string(OHMWRIGHT_SOURCE_DIR) + "/plugins/defrost-sensor/ratings/ntc-10k-b3977.json";
  const std::string own = folder.write("own.json", bytes_of(shipped));
  const std::string out = folder.path("out.jsonl");
  const std::vector<std::string> words{"batch", input,   "--kind", "thermistor", "--ratings",
                                       own,     "--out", out,      "--resume"};
  ASSERT_EQ(run_program(words).exit_code, 0);
  const std::string done = bytes_of(out + ".done");  // of a run whose classes, plugin or meter were other ones
  for (const std::string what : {"meter basic", "kind defrost-sensor", "ratings file defrost-sensor/own"}) {
    const std::size_t digest = done.find(R"("sha256":")", done.find('"' + what + '"'));
    ASSERT_NE(digest, std::string::npos) << what;
    std::string other = done;
    other.replace(digest + 10, 8, "00000000");
    folder.write("out.jsonl.done", other);
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 2) << what;
    EXPECT_THAT(ran.err, AllOf(HasSubstr(what), HasSubstr("is not what it was"))) << ran.err;
  }
}

TEST(Batch, MergesTheShardsOfOneRunOnce) {
  const TemporaryFolder folder;
  const std::string input = folder.write("in.jsonl", population(400));
  const auto shard = [&](std::string name, std::vector<std::string> more) {
    const std::string path = folder.path(name + ".json");
    more.insert(more.begin(), {input, "--summary", path});
    EXPECT_EQ(batch(more).exit_code, 0);
    return path;
  };
  const auto merge = [](std::vector<std::string> words) {
    words.insert(words.begin(), {"batch", "--merge"});
    return run_program(words);
  };
  const std::string first = shard("first", {"--shard", "1/3"});
  const std::string second = shard("second", {"--shard", "2/3"});
  const std::string third = shard("third", {"--shard", "3/3"});
  EXPECT_THAT(merge({first, first}).err, HasSubstr("shard 1 of 3 is in two of the summaries"));
  EXPECT_THAT(merge({first, shard("half", {"--shard", "2/2"}), third}).err, HasSubstr("in 3 and in 2 shards"));
  const std::string some = folder.path("some.json");
  const Ran missing = merge({third, first, "--summary", some});
  EXPECT_EQ(missing.exit_code, 3);
  EXPECT_THAT(missing.err, HasSubstr("not among the summaries: 2."));
  EXPECT_EQ(merge({some, second, "--summary", folder.path("all.json")}).exit_code, 0);
  EXPECT_EQ(bytes_of(folder.path("all.json")), bytes_of(shard("whole", {})));
  EXPECT_THAT(merge({first, shard("else", {"--shard", "2/3", "--confidence", "0.9"})}).err,
              HasSubstr("of different options"));
  std::string other = bytes_of(first);
  other.replace(other.find(R"("meter basic": ")") + 16, 8, "00000000");
  EXPECT_THAT(merge({third, folder.write("other.json", other)}).err, HasSubstr("by two contents of the meter basic"));
}

TEST(Batch, TellsWhatIsTypedWrong) {
  const TemporaryFolder folder;
  const auto refusal = [](std::vector<std::string> words) {
    words.insert(words.begin(), "batch");
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 2);
    return ran.err;
  };
  EXPECT_THAT(refusal({"--resume", "--kind", "heater"}), HasSubstr("name it with --out"));
  EXPECT_THAT(refusal({"--shard", "1/2"}), HasSubstr("name a file"));
  EXPECT_THAT(refusal({"--threads", "0"}), HasSubstr("from 1 to 256"));
  EXPECT_THAT(refusal({"--merge"}), HasSubstr("none was given"));
  EXPECT_THAT(refusal({folder.path("none.jsonl")}), HasSubstr("cannot be read: No such file"));
  EXPECT_THAT(refusal({folder.path()}), HasSubstr("holds no file that ends in"));
  EXPECT_THAT(refusal({"--kind", "toaster"}), HasSubstr("toaster"));
}

}  // namespace
}  // namespace ohmwright
