#pragma once

#include <string>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/record.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

class LockedRecord;

/// An entry of a record, and its number.
struct DoneEntry {
  std::size_t number = 0;
  course::Entry entry;
};

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

  /// Does it and appends it to the record, after what others who work on the same record did meanwhile. Throws
  /// InputError for what cannot be done.
  DoneEntry act(const course::Entry& wish);
  /// What the record so far comes to, to be read out and written down.
  std::string check_word() const { return course::check_word(course::last_link(text_)); }

 private:
  void begin_or_take_up(const course::Entry& start, bool joins);
  course::Entry append(LockedRecord& file, const course::Entry& wish);
  void take_up(const std::string& more);

  course::Exercise exercise_;
  course::Practice practice_;
  std::string record_file_;
  std::string text_;
};

/// Who works together, by --student.
std::vector<std::string> students_named(const Arguments& arguments);

}  // namespace ohmwright::cli
