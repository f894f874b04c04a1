#pragma once

#include <ohmwright/report/chart.hpp>

namespace ohmwright {

/// Reach of a chart's vertical axis, SI.
struct ChartScale {
  double lowest = 0.0;
  double highest = 1.0;
  bool logarithmic = false;
};

/// The scale that shows every line with its limits and every mark. 0…1 for a chart of contacts.
ChartScale scale_of(const Chart& chart);

/// What is drawn of an expectation: the share of closed contacts, or the nominal value. SI.
double drawn_value(const Expectation& expected);

/// What the vertical axis and a line are called.
std::string vertical_title(const Chart& chart, const Sentences& say);
std::string horizontal_title(const Chart& chart, const Sentences& say);
std::string line_title(const Chart& chart, const ChartLine& line, const Sentences& say);
/// How people are shown the state that the line is drawn for; empty where the part has one line.
std::string state_title(const Chart& chart, const ChartLine& line, const Sentences& say);

}  // namespace ohmwright
