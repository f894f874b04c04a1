#pragma once

#include <string>
#include <vector>

#include <ohmwright/course/lesson.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright::course {

/// What the instructor keeps: the appliance, the meter and, of each exercise, its file and what is wrong.
struct CourseKey {
  std::string appliance_text;  ///< the appliance's own file
  Meter meter;
  std::vector<MadeExercise> exercises;
};

/// What the files of an exercise are called, by its place in the set from 0 on: "exercise-003".
std::string exercise_file_name(std::size_t place);

/// As text, to be sealed.
std::string key_text(const CourseKey& key);

/// Reads it back. Throws DocumentError.
CourseKey read_key(const std::string& text, const std::string& file);

}  // namespace ohmwright::course
