#pragma once

#include <string>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/record.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// An exercise and its record on the disk: begun, or taken up where it was left.
class CourseBench {
 public:
  /// Reads the exercise of the second operand and the record of --record (beside the exercise, ending in .record,
  /// unless it is named). Throws DocumentError, and InputError for a record of another exercise or an edited one.
  explicit CourseBench(const Arguments& arguments);
  CourseBench(const CourseBench&) = delete;
  CourseBench& operator=(const CourseBench&) = delete;
  ~CourseBench() = default;

  const course::Exercise& exercise() const { return exercise_; }
  const course::Practice& practice() const { return practice_; }
  const std::string& record_file() const { return record_file_; }

  /// Does it and appends it to the record. Throws InputError for what cannot be done.
  course::Entry act(const course::Entry& wish);

 private:
  void take_up(const std::string& hash, const Arguments& arguments);

  course::Exercise exercise_;
  course::Practice practice_;
  std::string record_file_;
  std::string text_;
};

/// Who works together, by --student.
std::vector<std::string> students_named(const Arguments& arguments);

}  // namespace ohmwright::cli
