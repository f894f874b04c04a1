#pragma once

#include <string>
#include <vector>

#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/cycles/verdicts/repair.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// Two logs that were read to their ends, and how they compare. Refers to what the caller keeps.
struct RepairReport {
  const cycles::LogReader& before_reader;
  const cycles::LogReader& after_reader;
  const cycles::LogAnalysis& before;
  const cycles::LogAnalysis& after;
  const cycles::RepairComparison& comparison;
};

/// What the page of a repair says, in the reader's language, before it is laid out.
struct RepairContent {
  std::string headline;
  std::vector<std::string> brief_cautions;        ///< where parts are still to be tested
  std::vector<std::string> faults;                ///< each fault and how it stands
  std::vector<std::vector<std::string>> figures;  ///< the table, its head first
  std::vector<std::string> unproved;
  std::vector<std::string> logs;  ///< what was compared
};

RepairContent repair_content(const RepairReport& report, const Sentences& say);

/// The repair as a page of text.
std::string repair_page(const RepairReport& report, const Sentences& say, const PageStyle& style);

/// As a whole HTML page.
std::string repair_html(const RepairReport& report, const Sentences& say);

/// For programs (schemas/log-comparison.schema.json), SI units, indented, with a final newline.
std::string repair_json(const RepairReport& report, const Sentences& say);

}  // namespace ohmwright
