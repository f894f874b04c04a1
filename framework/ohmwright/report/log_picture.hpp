#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/report/log_report.hpp>

namespace ohmwright {

/// How large a picture is, in the units of its page; the letters stay the same size.
struct PictureSize {
  int width = 720;
  int panel_height = 210;  ///< each of temperature and load
};

/// A phase of a defrost as the pictures shade it.
struct PhaseOfDefrost {
  std::string_view english;
  std::string_view colour;
  bool is_first = false;
};
std::span<const PhaseOfDefrost> phases_of_defrosts();

/// All that the picture of a whole log is drawn from, so that it can be drawn where the log is no longer there.
struct LogDrawing {
  struct Stretch {
    double from_second = 0.0;
    double to_second = 0.0;
  };

  std::optional<double> start_second;  ///< of the first row, since 1970; empty: the log has no dates
  double column_second = 0.0;          ///< time that a column stands for
  cycles::PlotColumns columns;
  std::vector<Stretch> defrosts;
};
LogDrawing drawing_of(const LogReport& report, std::size_t most_columns);
/// As JSON; and back, nothing for what is no such record, or one of more than `most_columns` of `cycles::LogOutline`.
std::string drawing_record(const LogDrawing& drawing);
std::optional<LogDrawing> drawing_from_record(std::string_view record);

std::string log_picture_script(const LogDrawing& drawing, const Sentences& say, PictureSize size);
/// Script that draws the whole log: least to greatest of each column, defrosts shaded and numbered.
std::string log_picture_script(const LogReport& report, const Sentences& say, PictureSize size);

/// Script that draws one defrost, its phases shaded and named.
std::string defrost_picture_script(const LogReport& report, const cycles::DefrostTrace& trace, const Sentences& say,
                                   PictureSize size);

/// The picture of a script as SVG; nothing where gnuplot is not there.
std::optional<std::string> drawn_picture(const std::string& script);

}  // namespace ohmwright
