#pragma once

#include <string>
#include <vector>

#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright {

/// What was read and how, one line a reading (of a long series the first ones and the last), then what the reader
/// should know of probes and meter.
std::vector<std::string> reading_lines(const VerdictReport& report, const Sentences& sentences, Audience audience);

}  // namespace ohmwright
