#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

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

/// The same, read.
Appliance shipped(const std::string& name);

/// Where the row of that id stands.
template <class Row>
std::size_t place_of(const std::vector<Row>& rows, const std::string& id) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  EXPECT_NE(found, rows.end()) << id;
  return static_cast<std::size_t>(found - rows.begin());
}

/// What `course make` makes, in memory.
CourseKey made_key(const std::string& appliance, Lesson lesson, const std::string& seed, std::size_t count);

}  // namespace ohmwright::course::testing
