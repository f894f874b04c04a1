#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/verdicts/log_verdict.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

// Words and figures of logs, shared by their pages. Between source files of this area.

/// "0.48": rounded to so many decimals.
std::string rounded(double value, int decimals = 0);

/// "40 s", "14 min", "2 h 30 min", "3 d 4 h".
std::string duration_text(double seconds);

/// "-18.2 °C".
std::string degrees_text(double kelvin);

/// A finding's argument as text, whatever it holds; empty where it has none of that name.
std::string argument_text(const cycles::LogFinding& finding, std::string_view name);

/// A time of the log for people: date and clock as its own time stamps have them, or how long after its first row.
/// `start_second` is that of the first row since 1970-01-01 [s], if the log has dates.
std::string log_time_text(double second, std::optional<double> start_second);

/// "2026-01-01 14:05", of seconds since 1970-01-01.
std::string log_date_text(double second);

/// What a rule says of a log, with its probability where it has one.
std::string log_verdict_text(const cycles::LogVerdict& verdict, const Sentences& say);

/// What separated one event from another in a log, as a sentence in the unit that people read.
std::string log_threshold_text(const cycles::LogThreshold& threshold, const Sentences& say);

/// What stands before a page of a log that sends somebody to the appliance, by what waits for them there.
std::vector<std::string> log_brief_cautions(const Sentences& say, std::string_view step = "judge-a-log");

/// "The defrost's end": what a rule looks at.
std::string log_rule_title(std::string_view rule, const Sentences& say);

}  // namespace ohmwright
