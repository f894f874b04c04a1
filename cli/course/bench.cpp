#include "course/bench.hpp"

#include <algorithm>
#include <chrono>
#include <ctime>
#include <filesystem>

#include <fmt/chrono.h>

#include <ohmwright/course/secret.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "course/files.hpp"
#include "course/record_file.hpp"

namespace ohmwright::cli {

namespace {

constexpr const char* another_record = "; name another file with --record";

/// "2026-03-01T09:30:00Z"
std::string now_in_utc() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now));
}

/// Whether the record has named them before.
bool is_among(const std::string& student, const course::Record& record) {
  return std::any_of(record.entries.begin(), record.entries.end(), [&](const course::Entry& entry) {
    return std::find(entry.students.begin(), entry.students.end(), student) != entry.students.end();
  });
}

course::Exercise exercise_in(const std::string& path) {
  return course::read_exercise(parse_document_to_check(text_of_file(path), path, course::course_limits()));
}

}  // namespace

CourseBench::CourseBench(const Arguments& arguments)
    : exercise_(exercise_in(course_operand(arguments, 1, "EXERCISE, a file of course make"))), practice_(exercise_) {
  const std::string& path = arguments.operands[1];
  record_file_ = arguments.value("--record", std::filesystem::path(path).replace_extension(".record").string());
  course::Entry start{.action = "start"};
  start.subject = exercise_.name;
  start.students = students_named(arguments);
  start.file = course::sha256_text(text_of_file(path));
  start.session = course::random_word();
  start.begun = now_in_utc();
  begin_or_take_up(start, arguments.operands[0] == "practise");
}

/// Whoever `joins` a record that was begun is named in it: who answers is named by the answer.
void CourseBench::begin_or_take_up(const course::Entry& start, bool joins) {
  LockedRecord file(record_file_);
  const std::string so_far = file.text_from(0);
  if (so_far.empty()) {
    append(file, start);
    return;
  }
  const std::string there = course::read_record(so_far, record_file_).entries.front().file;
  if (there != start.file)
    throw InputError(ohmwright::quoted(record_file_) + " is the record of another exercise" + another_record);
  take_up(so_far);
  course::Entry joining{.action = "join"};
  for (const std::string& student : start.students)
    if (!is_among(student, course::read_record(so_far, record_file_))) joining.students.push_back(student);
  if (joins && !joining.students.empty()) append(file, joining);
}

course::Entry CourseBench::append(LockedRecord& file, const course::Entry& wish) {
  course::Entry done = practice_.perform(wish);
  const std::string line = course::record_line(done, text_);
  file.append(line);
  text_ += line;
  return done;
}

/// Does again what stands in the file behind what is known of it.
void CourseBench::take_up(const std::string& more) {
  const std::string text = text_ + more;
  const course::Record record = course::read_record(text, record_file_);
  if (record.broken_at)
    throw InputError(ohmwright::quoted(record_file_) + " was edited at entry " + std::to_string(*record.broken_at) +
                     another_record);
  for (std::size_t i = practice_.entries(); i < record.entries.size(); ++i) practice_.perform(record.entries[i]);
  text_ = text;
}

DoneEntry CourseBench::act(const course::Entry& wish) {
  LockedRecord file(record_file_);
  if (const std::string more = file.text_from(text_.size()); !more.empty()) take_up(more);
  const std::size_t number = practice_.entries();
  return {number, append(file, wish)};
}

std::vector<std::string> students_named(const Arguments& arguments) {
  const auto given = arguments.options.find("--student");
  return given == arguments.options.end() ? std::vector<std::string>{} : given->second;
}

}  // namespace ohmwright::cli
