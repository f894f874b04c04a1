#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// What a good part reads at one place of the axis; nothing where its ratings do not say.
struct ChartPoint {
  double condition = 0.0;  ///< SI unit of the axis
  std::optional<Expectation> expected;
};

/// Whether the place lies past the span that the ratings vouch for, so that the curve itself is in doubt.
inline bool is_past_the_span(const ChartPoint& point) {
  return point.expected && point.expected->model_standard_error > 0.0;
}

/// Whether that doubt is about as wide as half of the limits, or wider: then they look firmer than they are.
bool limits_are_in_doubt(const ChartPoint& point);

/// One line of a chart: for a state of the part ("warming"), or the only one.
struct ChartLine {
  std::string state;  ///< id of the state's value, which files keep; empty: the part has one line
  std::vector<ChartPoint> points;
};

/// A reading that is marked on a chart, with the doubt of both its values (half-widths, SI). Of a contact the value is
/// 1 where it was seen closed, 0 where it was seen open, and between them where it was neither.
struct ChartMark {
  std::string label;
  double condition = 0.0;
  double condition_half_width = 0.0;
  double value = 0.0;
  double value_half_width = 0.0;
};

/// Expected readings along an axis, and readings beside them. Refers to the descriptor, which the caller keeps.
struct Chart {
  const Descriptor& descriptor;
  const ChartAxis& axis;
  std::string part_title;
  std::vector<ChartLine> lines;
  std::vector<ChartMark> marks;
};

/// Which chart of a part is wanted.
struct ChartRequest {
  std::size_t axis = 0;  ///< index into `Descriptor::charts`
  double from = 0.0;     ///< SI; from < to
  double to = 0.0;
  std::size_t points = 21;                 ///< at least 2, evenly spaced, both ends included
  std::vector<ConditionValue> conditions;  ///< that stay as they are along the axis
};

/// Asks the part for what it would read, point by point. Throws what the part throws.
Chart make_chart(const Part& part, const Descriptor& descriptor, const ChartRequest& request);

/// The readings that can be marked on that chart: a value of its measurand, or what was seen of its contact, at a value
/// of its condition.
std::vector<ChartMark> chart_marks(const Chart& chart, const Evidence& evidence);

/// Where some good parts are closed and some open (SI of the axis).
struct SwitchingSpan {
  double from = 0.0;
  double to = 0.0;
};
/// The limits of the trip points, as far as the points of the line tell them; empty where the line never switches. A
/// share below 0.1 % is none. Spans that touch are one.
std::vector<SwitchingSpan> switching_spans(const ChartLine& line);

/// A step that people count in (1, 2 or 5 times a power of ten) and that divides the span into at most `most` parts, in
/// the unit of `span`.
double round_step(double span, std::size_t most);

/// True where the line is the share of good parts that are closed, not a reading.
bool is_of_contacts(const Chart& chart);

/// What the table says of places past the span; empty where the chart has none.
std::string remark_on_span(const Chart& chart, const Sentences& say);

/// The chart as a table, with a plot of `dense` (the same chart with many points) in characters above it.
std::string chart_page(const Chart& chart, const Chart& dense, const Sentences& say, const PageStyle& style);
/// Comma-separated values for a spreadsheet: in the units of the table (those that were typed, else the customary
/// ones), one a column, named in the header line.
std::string chart_csv(const Chart& chart, const Sentences& say);
/// For programs (schemas/chart.schema.json), SI units, with a final newline.
std::string chart_json(const Chart& chart);
/// A whole HTML page: the picture of `dense` and the table; the table alone and a sentence where no plotter is at hand.
/// `made_with` says at its foot what made it and when.
std::string chart_html(const Chart& chart, const Chart& dense, const Sentences& say, std::string_view made_with = {});

}  // namespace ohmwright
