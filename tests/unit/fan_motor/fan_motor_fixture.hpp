#pragma once

#include <string>
#include <vector>

#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "fan_motor_kind.hpp"
#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"

namespace ohmwright::fan_motor::testing_support {

/// Ratings as they stand in a file. Throws when they are refused.
inline FanMotorRatings ratings(const std::string& json) {
  std::vector<Problem> problems;
  const Document document = parse_document(json, "ratings");
  const auto read = read_ratings(document.root, problems);
  if (!read) throw std::runtime_error(problems.empty() ? "refused" : problems.front().text);
  return *read;
}

inline std::vector<Problem> problems_of(const std::string& json) {
  std::vector<Problem> problems;
  const Document document = parse_document(json, "ratings");
  (void)read_ratings(document.root, problems);
  return problems;
}

inline FanMotorRatings plain() {
  return ratings(R"({"construction": "shaded-pole", "voltage": "120 V", "frequency": "60 Hz", "poles": 4,
                     "winding": "82 ohm", "winding_tolerance": "7 %", "current": "0.24 A"})");
}

}  // namespace ohmwright::fan_motor::testing_support
