#pragma once

#include <string_view>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>

#include "simulated_log.hpp"

namespace ohmwright::cycles::testing_support {

inline LogAnalysis analysed(const SimulatedLog& log, const LogRatings& ratings = {}) {
  LogAnalyser analyser(ratings);
  analyser.take(log.rows);
  return analyser.finish();
}

inline LogAnalysis analysed(std::string_view text, const LogReadingSettings& settings = {}) {
  LogReader reader(log_in_memory(text), settings);
  LogAnalyser analyser;
  for (std::span<const LogRow> rows = reader.next(); !rows.empty(); rows = reader.next()) analyser.take(rows);
  return analyser.finish(reader);
}

inline bool says(const LogAnalysis& analysis, std::string_view id) {
  return find_finding(analysis.findings, id) != nullptr;
}

/// A quiet log that holds everything: rows of ten seconds, nothing missing.
inline SimulatedPlan plain_plan() {
  SimulatedPlan plan;
  plan.jitter = 0.0;
  plan.kelvin_noise = 0.05;
  plan.power_noise = 0.005;
  plan.has_doors = false;
  return plan;
}

inline LogAnalysis of_rows(const std::vector<LogRow>& rows) {
  LogAnalyser analyser;
  analyser.take(rows);
  return analyser.finish();
}

}  // namespace ohmwright::cycles::testing_support
