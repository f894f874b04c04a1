#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

// What every script for gnuplot has. Between source files of this area.

/// A text inside a gnuplot script: within single quotes only a newline and the quote itself mean anything.
std::string quoted_for_gnuplot(std::string_view text);

/// A text broken into lines of at most `width` columns where a space lets it.
std::vector<std::string> lines_of_width(std::string_view text, int width);

/// The quoted text broken into lines of at most `width` columns where a space lets it: one expression, each line
/// quoted.
std::string wrapped_for_gnuplot(std::string_view text, int width);

/// Axes that stand back behind what is drawn on them.
inline constexpr std::string_view thin_axes =
    "set border 3 linecolor rgb '#aaaaaa' linewidth 0.6\n"
    "set tics nomirror scale 0.5 textcolor rgb '#444444'\n"
    "set grid linetype 1 linecolor rgb '#e8e8e8' linewidth 0.5\n"
    "set key below height 1 samplen 2 spacing 1.2 textcolor rgb '#444444'\n";

}  // namespace ohmwright
