#include <array>
#include <charconv>
#include <filesystem>
#include <sys/stat.h>
#include <thread>

#include <ohmwright/batch/batch_input.hpp>
#include <ohmwright/batch/batch_run.hpp>
#include <ohmwright/batch/run_part.hpp>
#include <ohmwright/batch/summary_document.hpp>
#include <ohmwright/batch/used_files.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/batch_report.hpp>

#include "batch/parts.hpp"
#include "batch/record_output.hpp"
#include "exit_codes.hpp"
#include "instruments.hpp"
#include "made_with.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

double batch_confidence(const Arguments& arguments) {
  if (!arguments.has("--confidence")) return JudgeSettings{}.confidence;
  const std::string text = arguments.value("--confidence");
  const double confidence = parse_stated_value(text, Dimension::ratio).value.value_in_si();
  if (confidence > 0.5 && confidence < 1.0) return confidence;
  throw InputError("--confidence takes a probability between 0.5 and 1, such as 0.95, got " + ohmwright::quoted(text));
}

unsigned typed_threads(const Arguments& arguments) {
  constexpr unsigned most = 256;
  const std::string text = arguments.value("--threads", "1");
  unsigned threads = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), threads);
  if (error != std::errc{} || end != text.data() + text.size() || threads == 0 || threads > most)
    throw InputError("--threads takes a whole number from 1 to 256, got " + ohmwright::quoted(text));
  return threads;
}

/// A file with what tells whether it is still the same.
std::string file_as_it_is(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return path;
  return path + " of " + std::to_string(status.st_size) + " bytes, changed at " +
         std::to_string(status.st_mtim.tv_sec) + "." + std::to_string(status.st_mtim.tv_nsec);
}

constexpr std::array judging_options{"--kind", "--ratings", "--control", "--meter", "--confidence", "--live-agreed"};

/// What was asked for, and of what: the files, the options that say how they are judged, and the program. What is
/// opened for it, plugins, ratings and meters, is noted as it is (`UsedFiles`).
std::vector<std::string> what_it_is_made_from(const Arguments& arguments, const std::vector<batch::InputFile>& files) {
  std::vector<std::string> made_from{program_version()};
  std::vector<std::string> options(judging_options.begin(), judging_options.end());
  options.emplace_back("--shard");
  for (const std::string& option : options) {
    const auto given = arguments.options.find(option);
    if (given == arguments.options.end()) continue;
    made_from.push_back(option);
    for (const std::string& value : given->second) made_from.push_back(is_path(value) ? file_as_it_is(value) : value);
  }
  for (const batch::InputFile& file : files)
    made_from.push_back(file.path + " of " + std::to_string(file.bytes) + " bytes, changed at " +
                        std::to_string(file.changed_at));
  return made_from;
}

/// Which part of which run this is: the same on every machine that judges a part of it.
batch::RunPart part_of_run(const Arguments& arguments, const std::vector<batch::InputFile>& files,
                           const batch::Shard& shard) {
  batch::RunPart part{
      {program_version(), {}, batch::identity_of(files)}, {}, shard.count, {{shard.index, shard.index}}};
  for (const std::string option : judging_options) {
    const auto given = arguments.options.find(option);
    if (given == arguments.options.end()) continue;
    part.run.options.push_back(option);
    for (const std::string& value : given->second)  // a file by what is in it, wherever it lies
      part.run.options.push_back(is_path(value) ? "sha256 " + batch::sha256_of_file(value).value_or("unreadable")
                                                : value);
  }
  return part;
}

void refuse_what_does_not_go_together(const Arguments& arguments, const std::vector<batch::InputFile>& files) {
  if (arguments.has("--resume") && !arguments.has("--out"))
    throw InputError("--resume goes on with a file of records; name it with --out");
  if (arguments.has("--ratings") && !arguments.has("--kind"))
    throw InputError("--ratings are those of a kind; name it with --kind");
  if (arguments.has("--control") && !arguments.has("--ratings"))
    throw InputError("--control says what reads the part; name the part's own ratings too (--ratings)");
  std::vector<std::filesystem::path> read;
  for (const batch::InputFile& file : files) {
    if (file.path == "-" && (arguments.has("--resume") || arguments.has("--shard")))
      throw InputError("the standard input can be read once and in one go; name a file for --resume and --shard");
    read.emplace_back(file.path);
  }
  for (const char* option : {"--out", "--summary"}) refuse_to_overwrite(arguments, option, read);
  refuse_one_file_for_both(arguments, "--out", "--summary");
}

int deliver_summary(const batch::Summary& summary, const batch::RunPart& part, const Arguments& arguments,
                    Environment& environment, std::ostream& page) {
  if (arguments.has("--summary"))
    write_file_atomically(arguments.value("--summary"), batch::summary_json(summary, &part));
  page << batch_page(summary, Sentences{UnitPreferences{}}, environment.page);
  const bool all_were_refused = summary.judged() == 0 && summary.refused > 0;
  return all_were_refused || summary.cut_short > 0 ? exit_refused : exit_done;
}

int merge_summaries(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty())
    throw InputError("--merge takes the summaries that --summary wrote, one for each shard; none was given");
  refuse_to_overwrite(arguments, "--summary");
  batch::PartSummary sum = batch::read_summary(arguments.operands[0]);
  for (std::size_t i = 1; i < arguments.operands.size(); ++i) {
    const batch::PartSummary other = batch::read_summary(arguments.operands[i]);
    sum.part.add(other.part);
    sum.summary.add(other.summary);
  }
  const int code = deliver_summary(sum.summary, sum.part, arguments, environment, environment.out);
  if (sum.part.is_whole()) return code;
  environment.err << paragraph(
      Sentences{UnitPreferences{}}(
          OHMWRIGHT_TEXT("Some are missing: of {shards} shards these are not among the summaries: {missing}."),
          {{"shards", std::to_string(sum.part.shards)}, {"missing", sum.part.missing()}}),
      environment.page.width);
  return exit_undecided;
}

int run_batch_verb(const Arguments& arguments, Environment& environment) {
  if (arguments.has("--merge")) return merge_summaries(arguments, environment);
  const std::string out = arguments.value("--out");
  const std::vector<batch::InputFile> files = batch::batch_inputs(arguments.operands, out);
  refuse_what_does_not_go_together(arguments, files);
  const batch::Shard shard = arguments.has("--shard") ? batch::parse_shard(arguments.value("--shard")) : batch::Shard{};
  const batch::BatchSettings settings{arguments.value("--kind"),
                                      arguments.value("--ratings"),
                                      {batch_confidence(arguments)},
                                      arguments.has("--live-agreed")};
  const unsigned threads = typed_threads(arguments);
  batch::UsedFiles used;
  BatchParts parts(environment, settings.ratings, arguments.value("--control"), used);
  if (!settings.kind.empty()) parts.part(settings.kind, settings.ratings);  // what is typed wrong is told before all
  const auto make_instruments = batch_instruments(arguments, environment);
  make_instruments();
  for (const auto& [what, path] : meter_files(arguments, environment)) used.note(what, path);
  BatchOutput output(out, what_it_is_made_from(arguments, files), arguments.has("--resume"), used, environment);
  if (!output.was_done()) {
    batch::BlockReader reader(files, batch::ranges_of(files, shard), output.begin());
    batch::run_batch(reader, settings, parts, make_instruments, threads,
                     [&output](batch::JudgedBlock& judged) { output.take(judged); });
    output.finish();
  }
  batch::RunPart part = part_of_run(arguments, files, shard);
  part.files = used.all();
  const int code =
      deliver_summary(output.summary(), part, arguments, environment, out.empty() ? environment.err : environment.out);
  if (!output.first_refusal().empty())
    environment.err << paragraph(Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("First line refused: {refusal}"),
                                                              {{"refusal", output.first_refusal()}}),
                                 environment.page.width);
  return code;
}

}  // namespace

VerbSpec batch_verb() {
  return {
      .name = "batch",
      .summary = OHMWRIGHT_TEXT("Judge many parts, one a line, and sum up what was found"),
      .example = "ohmwright batch readings.jsonl --kind thermistor --ratings ntc-10k-b3977 --out verdicts.jsonl",
      .operands = {{"FILE",
                    OHMWRIGHT_TEXT("Lines of JSON or a CSV table, gzip too, or a folder of them; none: standard input. "
                                   "With --merge: summaries. Exit code 0, or 2 when all lines were refused or "
                                   "a compressed file was cut short"),
                    false, true}},
      .options =
          {
              {"--kind", "KIND", OHMWRIGHT_TEXT("What the parts are, where a line does not say it"), {}},
              {"--ratings", "NAME|FILE", OHMWRIGHT_TEXT("What parts of that kind should be, likewise"), {}},
              {"--control", "NAME|FILE", OHMWRIGHT_TEXT("What reads parts of those ratings (a sensor's control)"), {}},
              {"--meter", "NAME|FILE", OHMWRIGHT_TEXT("The meter, and again for a further instrument"), {}, true},
              {"--confidence", "P", OHMWRIGHT_TEXT("How sure a verdict must be (default 0.95)"), {}},
              {"--live-agreed",
               "",
               OHMWRIGHT_TEXT("Whoever read live parts was qualified and agreed to the caution for it"),
               {}},
              {"--threads", "N", OHMWRIGHT_TEXT("Threads that judge (default 1)"), {}},
              {"--shard",
               "I/N",
               OHMWRIGHT_TEXT("Only the I-th of N parts of the input, so that N machines share it"),
               {}},
              {"--resume",
               "",
               OHMWRIGHT_TEXT("Go on where a run that was killed had come to; nothing where it is done"),
               {}},
              {"--merge",
               "",
               OHMWRIGHT_TEXT("Add the summaries of shards, and judge nothing; exit code 3 where shards are missing"),
               {}},
              {"--summary", "FILE", OHMWRIGHT_TEXT("Write the summary there too, as JSON"), {}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write the records there instead of the terminal"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_batch_verb,
  };
}

}  // namespace ohmwright::cli
