#pragma once

#include <optional>
#include <string>

#include <ohmwright/report/chart.hpp>

namespace ohmwright {

/// The script that draws a chart with gnuplot as SVG. It holds our own commands and numbers only; every text stands in
/// single quotes with its control characters gone and its quotes doubled, so that nothing in it is carried out.
std::string picture_script(const Chart& dense, const Sentences& say);

/// The chart drawn as SVG; empty where gnuplot is not installed or fails.
std::optional<std::string> chart_picture(const Chart& dense, const Sentences& say);

}  // namespace ohmwright
