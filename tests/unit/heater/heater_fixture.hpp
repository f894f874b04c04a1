#pragma once

#include <string>
#include <vector>

#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "heater_kind.hpp"
#include "part/heater_ratings.hpp"
#include "rules/names.hpp"

namespace ohmwright::heater::testing_support {

/// Ratings as they stand in a file. Throws when they are refused.
inline HeaterRatings ratings(const std::string& json) {
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

inline HeaterRatings plain() { return ratings(R"({"voltage": "120 V", "power": "450 W"})"); }

}  // namespace ohmwright::heater::testing_support
