#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

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

/// Script that draws the whole log: least to greatest of each column, defrosts shaded and numbered.
std::string log_picture_script(const LogReport& report, const Sentences& say, PictureSize size);

/// Script that draws one defrost, its phases shaded and named.
std::string defrost_picture_script(const LogReport& report, const cycles::DefrostTrace& trace, const Sentences& say,
                                   PictureSize size);

/// The picture of a script as SVG; nothing where gnuplot is not there.
std::optional<std::string> drawn_picture(const std::string& script);

}  // namespace ohmwright
