#pragma once

#include <string>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/cycles/verdicts/log_verdict.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// A log that was read to its end, with what it holds. Refers to what the caller keeps.
struct LogReport {
  const cycles::LogReader& reader;
  const cycles::LogAnalysis& analysis;
  const std::vector<cycles::LogVerdict>& verdicts;
  std::string appliance = {};  ///< as the user named it; empty where none is known
  std::string file = {};       ///< as the user named it
};

/// What the page of a log says, in the reader's language, before it is laid out.
struct LogContent {
  std::string headline;
  std::string of_what;                 ///< which log, of which appliance, from when to when
  std::vector<std::string> questions;  ///< what has to be settled before the log says anything
  std::vector<std::string> verdicts;   ///< what is odd, and which part to test
  std::vector<std::string> next;       ///< the command that looks for the part at fault
  std::vector<std::string> brief_cautions;
  std::string defrosts_title;                   ///< says how many of them are listed, where not all are
  std::vector<std::string> defrosts;            ///< one line each, the last ones
  std::vector<std::vector<std::string>> table;  ///< the same defrosts, its head first
  std::vector<std::string> cooling;             ///< compressor, doors, energy
  std::vector<std::string> not_shown;           ///< what the log cannot show
  std::vector<std::string> form;                ///< how it was read, and what was guessed
  std::vector<std::string> troubles;            ///< rows that were wrong, with line numbers
  std::vector<std::string> thresholds;          ///< by what events were told apart
};

LogContent log_content(const LogReport& report, const Sentences& say);

/// The log as a page of text.
std::string log_page(const LogReport& report, const Sentences& say, const PageStyle& style);

/// The log as a whole HTML page, with pictures of it and of its last defrosts.
std::string log_html(const LogReport& report, const Sentences& say);

/// For programs (schemas/log.schema.json), SI units, indented, with a final newline.
std::string log_json(const LogReport& report, const Sentences& say);

}  // namespace ohmwright
