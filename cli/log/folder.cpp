#include "log/folder.hpp"

#include <array>
#include <ostream>
#include <string_view>

#include <ohmwright/batch/batch_input.hpp>
#include <ohmwright/batch/quick_line.hpp>
#include <ohmwright/batch/record_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_report.hpp>

#include "exit_codes.hpp"
#include "log/files.hpp"
#include "output.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::array<std::string_view, 4> endings_of_logs{".csv", ".tsv", ".txt", ".log"};

/// The logs of the shard. A log is read by one machine, whatever its size, so each counts as one piece.
std::vector<batch::InputFile> logs_of_shard(const Arguments& arguments) {
  std::vector<batch::InputFile> files =
      batch::batch_inputs(arguments.operands, arguments.value("--out"), endings_of_logs);
  if (!arguments.has("--shard")) return files;
  for (batch::InputFile& file : files) file.is_plain = false;
  const std::vector<batch::ByteRange> ranges = batch::ranges_of(files, batch::parse_shard(arguments.value("--shard")));
  std::vector<batch::InputFile> of_shard;
  for (std::size_t i = 0; i < files.size(); ++i)
    if (ranges[i].begin < ranges[i].end) of_shard.push_back(files[i]);
  return of_shard;
}

struct LogCounts {
  std::uint64_t read = 0;
  std::uint64_t ask_for_a_test = 0;
  std::uint64_t refused = 0;
};

void append_log(std::string& out, const batch::InputFile& file, const cycles::LogReadingSettings& settings,
                const cycles::LogRatings& ratings, LogCounts& counts) {
  out += R"({"file":)";
  batch::append_json_text(out, file.name);
  try {
    const ReadLog log = read_log(file.path, settings, ratings);
    if (log.reader.rows() == 0)
      throw InputError("holds no rows of a log; expected a table with a time and what was measured, one row a line");
    const std::vector<cycles::LogVerdict> verdicts = cycles::judge_log(log.analysis, ratings);
    out += R"(,"log":)" +
           batch::json_in_one_line(log_json({log.reader, log.analysis, verdicts}, Sentences{UnitPreferences{}}));
    ++counts.read;
    if (cycles::asks_for_a_test(verdicts)) ++counts.ask_for_a_test;
  } catch (const Error& error) {
    out += R"(,"error":)";
    batch::append_json_text(out, error.what());
    ++counts.refused;
  }
  out += "}\n";
}

}  // namespace

int run_log_folder(const Arguments& arguments, Environment& environment) {
  if (arguments.has("--format") && arguments.value("--format") != "json")
    throw InputError("a folder of logs gives one line of JSON a log; leave --format out, or name one log");
  const std::vector<batch::InputFile> files = logs_of_shard(arguments);
  std::vector<std::filesystem::path> read;
  for (const batch::InputFile& file : files) read.emplace_back(file.path);
  refuse_to_overwrite(arguments, "--out", read);
  const TypedLogRatings typed = typed_log_ratings(arguments, environment);
  tell_not_judged(typed, environment);
  const cycles::LogReadingSettings settings = typed_reading_settings(arguments);
  std::string lines;
  LogCounts counts;
  for (const batch::InputFile& file : files) {
    append_log(lines, file, settings, typed.ratings, counts);
    if (arguments.has("--out")) continue;
    environment.out << lines << std::flush;
    lines.clear();
  }
  if (arguments.has("--out")) deliver(lines, arguments, environment);
  environment.err << paragraph(
      Sentences{UnitPreferences{}}(
          OHMWRIGHT_TEXT("Logs read: {read}, of which {asking} ask for a test. Refused: {refused}."),
          {{"read", std::to_string(counts.read)},
           {"asking", std::to_string(counts.ask_for_a_test)},
           {"refused", std::to_string(counts.refused)}}),
      environment.page.width);
  return counts.read == 0 && counts.refused > 0 ? exit_refused : exit_done;
}

}  // namespace ohmwright::cli
