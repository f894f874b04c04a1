#pragma once

#include <string>
#include <vector>

#include <ohmwright/report/log_report.hpp>

namespace ohmwright {

/// The log as a small plot in characters, at most `width` columns: the coil's temperature, else the cabinet's, else the
/// load, from the least to the greatest of each column; `#` below it where a defrost is. No line for a log of nothing.
std::vector<std::string> log_plot_lines(const LogReport& report, const Sentences& say, int width);

}  // namespace ohmwright
