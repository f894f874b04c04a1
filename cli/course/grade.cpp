#include <algorithm>
#include <filesystem>

#include <ohmwright/course/class_table.hpp>
#include <ohmwright/course/copies.hpp>
#include <ohmwright/course/grade.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "course/actions.hpp"
#include "course/files.hpp"
#include "course/overrides.hpp"
#include "exit_codes.hpp"
#include "made_with.hpp"
#include "output.hpp"

namespace ohmwright::cli {

namespace {

std::vector<std::filesystem::path> records_in(const std::string& folder) {
  std::vector<std::filesystem::path> records;
  std::error_code error;
  for (const std::filesystem::directory_entry& file : std::filesystem::directory_iterator(folder, error))
    if (file.path().extension() == ".record") records.push_back(file.path());
  if (error) throw InputError("cannot read the folder " + ohmwright::quoted(folder) + "; name one with the records");
  if (records.empty())
    throw InputError(ohmwright::quoted(folder) + " holds no records; students hand in the files that end in .record");
  std::sort(records.begin(), records.end());
  return records;
}

course::Graded graded_file(const std::filesystem::path& path, course::Grader& grader, bool with_time_line) {
  const std::string name = path.filename().string();
  try {
    return grader.grade(course::read_record(text_of_file(path.string()), name), name, with_time_line);
  } catch (const DocumentError& error) {  // one spoilt file does not hold up the class
    course::Graded graded;
    graded.file = name;
    graded.refused = error.what();
    return graded;
  }
}

}  // namespace

int course_grade(const Arguments& arguments, Environment& environment) {
  const std::string& folder = course_operand(arguments, 1, "FOLDER with the students' records");
  const std::string key_file = arguments.value("--key", "course.key");
  const course::MarkWeights weights = arguments.has("--weights")
                                          ? course::read_weights(read_document_to_check(arguments.value("--weights")))
                                          : course::MarkWeights{};
  const std::vector<std::filesystem::path> records = records_in(folder);
  std::vector<std::filesystem::path> read = records;
  read.emplace_back(key_file);
  refuse_to_overwrite(arguments, "--out", read);
  const std::string sealed = text_of_file(key_file);
  const std::string key = course::opened(sealed, course_passphrase(arguments, PassphraseFor::made_key), key_file);
  course::Grader grader(course::read_key(key, key_file), environment.registry, weights);
  const std::string format = arguments.value("--format", "text");
  std::vector<course::Graded> graded;
  for (const std::filesystem::path& path : records)
    graded.push_back(graded_file(path, grader, format == "html" || arguments.has("--feedback")));
  course::note_copies(graded);
  put_overrides(arguments, graded);
  const std::vector<std::string> without_record = course::exercises_without_record(grader.key(), graded);
  const course::MarkedClass marked{graded, without_record};
  const Sentences say{UnitPreferences{}};
  deliver_beside_the_class(format == "csv" ? course::class_csv(graded)
                           : format == "html"
                               ? course::class_html(marked, weights, say, made_with())
                               : course::class_page(marked, arguments.has("--feedback"), say, environment.page),
                           arguments, environment);
  return exit_done;
}

}  // namespace ohmwright::cli
