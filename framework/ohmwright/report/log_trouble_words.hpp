#pragma once

#include <string>
#include <vector>

#include <ohmwright/report/log_report.hpp>

namespace ohmwright {

/// What was wrong with rows of a log, and where rows are missing: one line a sort, each with its count and the lines of
/// the log where it stands first.
std::vector<std::string> log_trouble_lines(const LogReport& report, const Sentences& say);

}  // namespace ohmwright
