#pragma once

#include <optional>
#include <string>

#include <ohmwright/report/chart.hpp>
#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright {

/// The script that draws what was measured against the limits that it was judged by, one strip a rule, as SVG by
/// gnuplot: for what depends on nothing that a chart could be drawn along, such as a fan's speed. Of `chart`, drawn
/// beside it, the measurand is left out; null for none. Empty where no rule judged a value by limits.
std::string limits_script(const VerdictReport& report, const Chart* chart, const Sentences& say);

/// The same drawn; empty where there is nothing to draw, gnuplot is not installed, or it fails.
std::optional<std::string> limits_picture(const VerdictReport& report, const Chart* chart, const Sentences& say);

}  // namespace ohmwright
