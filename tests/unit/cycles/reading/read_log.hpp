#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/reading/log_reader.hpp>

namespace ohmwright::cycles::testing_support {

/// A whole log, read.
struct ReadLog {
  LogDialect dialect;
  std::vector<LogFinding> findings;
  LogTroubles troubles;
  std::vector<LogRow> rows;
  std::optional<double> start_second;

  double value(std::size_t row, LogQuantity quantity) const { return rows.at(row).value[index_of(quantity)]; }
  std::vector<double> times() const {
    std::vector<double> seconds;
    for (const LogRow& row : rows) seconds.push_back(row.time_second);
    return seconds;
  }
  bool says(std::string_view id) const { return find_finding(findings, id) != nullptr; }
  bool asks(std::string_view id) const { return says(id) && find_finding(findings, id)->asks; }
};

inline ReadLog read_log(std::string_view text, const LogReadingSettings& settings = {}, std::size_t piece = 65536) {
  LogReader reader(log_in_memory(text, piece), settings);
  ReadLog log;
  for (std::span<const LogRow> rows = reader.next(); !rows.empty(); rows = reader.next())
    log.rows.insert(log.rows.end(), rows.begin(), rows.end());
  log.dialect = reader.dialect();
  log.findings = reader.findings();
  log.troubles = reader.troubles();
  log.start_second = reader.start_second();
  return log;
}

inline constexpr LogQuantity coil = LogQuantity::coil_temperature;
inline constexpr LogQuantity cabinet = LogQuantity::cabinet_temperature;
inline constexpr LogQuantity power = LogQuantity::power;
inline constexpr LogQuantity current = LogQuantity::current;

}  // namespace ohmwright::cycles::testing_support
