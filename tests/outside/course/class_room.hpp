#pragma once

#include <string>
#include <vector>

#include <ohmwright/course/grade.hpp>
#include <ohmwright/course/key.hpp>
#include <ohmwright/course/lesson.hpp>

namespace ohmwright::course::testing {

inline constexpr const char* passphrase = "four plain test words";
inline constexpr const char* timer_appliance = "upright-timer-bimetal-120v";

/// The kinds that this build made.
const Registry& registry();

/// A shipped appliance's file.
std::string appliance_file(const std::string& name);

/// What `course make` makes, in memory.
CourseKey made_key(const std::string& appliance, Lesson lesson, const std::string& seed, std::size_t count);

}  // namespace ohmwright::course::testing
