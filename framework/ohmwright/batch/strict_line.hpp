#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/batch/batch_settings.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright::batch {

/// Longest line that is read [bytes].
inline constexpr std::size_t longest_line = std::size_t{256} << 10U;

/// What is said of a longer one.
std::string long_line_text();

/// A line as the strict parser reads it.
struct StrictLine {
  std::string id;
  std::string lot;
  std::string named_kind;     ///< as the line says it, or empty
  std::string named_ratings;  ///< likewise
  std::string kind;           ///< as the line says it, else as the settings do
  std::string ratings;        ///< likewise; those of the settings only for a line of their kind
  std::vector<Reading> readings;
};

/// Reads a line of JSON by the strict parser and the schema. Throws InputError with all that is wrong, in one line;
/// what was read before it was found stays in `line`.
void read_strict_line(std::string_view text, const BatchSettings& settings, PartSource& parts, const MeterSet& meters,
                      StrictLine& line);

}  // namespace ohmwright::batch
