#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// What may be read at one place [ohm]; nothing where nobody says it.
struct OhmsReach {
  std::optional<double> low = {};
  std::optional<double> high = {};
  bool may_be_open = false;  ///< OL
};

/// What a fault does to what is read of a part: beside each other what good ones read and what faulty ones do.
struct FaultPicture {
  std::vector<double> kelvin;     ///< of an axis of temperatures, ascending; empty: a row for each place
  std::vector<std::string> rows;  ///< what a place is called, where there is no axis
  std::vector<OhmsReach> good;    ///< by place
  std::vector<OhmsReach> faulty;  ///< by place
};

/// The script that draws it with gnuplot as SVG, as `picture_script` does: bands over the axis, or bars in rows, over a
/// logarithmic scale of ohms at whose end OL stands.
std::string fault_picture_script(const FaultPicture& picture, const Sentences& say);

/// The picture as SVG; empty where gnuplot is not installed or fails.
std::optional<std::string> drawn_fault_picture(const FaultPicture& picture, const Sentences& say);

}  // namespace ohmwright
