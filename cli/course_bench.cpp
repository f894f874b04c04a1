#include "course_bench.hpp"

#include <filesystem>

#include <ohmwright/course/secret.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "course_files.hpp"

namespace ohmwright::cli {

namespace {

course::Exercise exercise_in(const std::string& path) {
  return course::read_exercise(parse_document(text_of_file(path), path, course::course_limits()));
}

}  // namespace

CourseBench::CourseBench(const Arguments& arguments)
    : exercise_(exercise_in(course_operand(arguments, 1, "EXERCISE, a file of course make"))), practice_(exercise_) {
  const std::string& path = arguments.operands[1];
  record_file_ = arguments.value("--record", std::filesystem::path(path).replace_extension(".record").string());
  take_up(course::sha256_text(text_of_file(path)), arguments);
}

void CourseBench::take_up(const std::string& hash, const Arguments& arguments) {
  if (!std::filesystem::exists(record_file_)) {
    course::Entry start{.action = "start", .subject = exercise_.name};
    start.students = students_named(arguments);
    start.file = hash;
    act(start);
    return;
  }
  text_ = text_of_file(record_file_);
  const course::Record record = course::read_record(text_, record_file_);
  const std::string advice = "; name another file with --record";
  if (record.entries.front().file != hash)
    throw InputError(ohmwright::quoted(record_file_) + " is the record of another exercise" + advice);
  if (record.broken_at)
    throw InputError(ohmwright::quoted(record_file_) + " was edited at entry " + std::to_string(*record.broken_at) +
                     advice);
  for (const course::Entry& entry : record.entries) practice_.perform(entry);
}

course::Entry CourseBench::act(const course::Entry& wish) {
  course::Entry done = practice_.perform(wish);
  text_ += course::record_line(done, text_);
  write_file_atomically(record_file_, text_);
  return done;
}

std::vector<std::string> students_named(const Arguments& arguments) {
  const auto given = arguments.options.find("--student");
  return given == arguments.options.end() ? std::vector<std::string>{} : given->second;
}

}  // namespace ohmwright::cli
