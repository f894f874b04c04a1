#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/report/fault_picture.hpp>
#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

/// Good ones are one plain colour, faulty ones stripes: told apart without colours, too.
constexpr std::string_view good_look = "fillcolor rgb '#bcd0e2' fillstyle solid noborder";
constexpr std::string_view faulty_look = "fillcolor rgb '#b5541c' fillstyle pattern 4 border";

constexpr std::string_view faulty_edge = "linewidth 1.2 linecolor rgb '#b5541c'";

/// The logarithmic scale of ohms, and where OL stands past its end.
struct OhmsScale {
  double low = 0.1;
  double high = 1e6;
  double open_from = 0.0;
  double open_to = 0.0;

  double open_middle() const { return std::sqrt(open_from * open_to); }
};

OhmsScale ohms_scale(const FaultPicture& picture) {
  constexpr double least_ohm = 0.1;  // what a meter of the trade reads last; nothing stands at its end
  double low = 1e9;
  double high = 0.0;
  for (const std::vector<OhmsReach>* side : {&picture.good, &picture.faulty})
    for (const OhmsReach& reach : *side) {
      if (!reach.high) continue;
      low = std::min(low, std::max(least_ohm, reach.low.value_or(least_ohm)));
      high = std::max(high, std::max(least_ohm, *reach.high));
    }
  OhmsScale scale;
  if (high > 0.0) {
    constexpr double margin = 1.4;
    scale.low = low / margin;
    scale.high = std::max(high * margin, 10.0 * scale.low);
  }
  const double decades = std::log10(scale.high / scale.low);
  scale.open_from = scale.high * std::pow(10.0, 0.07 * decades);
  scale.open_to = scale.open_from * std::pow(10.0, 0.14 * decades);
  return scale;
}

std::string two_ends(double from, double to) { return fmt::format(" {:.6g} {:.6g}", from, to); }

/// Both ends on the scale; a reach that is too thin to be seen is drawn a little thicker.
std::string ohms_ends(const OhmsReach& reach, const OhmsScale& scale) {
  if (!reach.high) return " NaN NaN";
  const double least_thickness = std::pow(scale.open_to / scale.low, 0.02);
  const double from = std::max(scale.low, reach.low.value_or(scale.low));
  return two_ends(from, std::max(from * least_thickness, *reach.high));
}

std::string open_ends(const OhmsReach& reach, const OhmsScale& scale) {
  return reach.may_be_open ? two_ends(scale.open_from, scale.open_to) : " NaN NaN";
}

/// "100", "10 k", "1 M".
std::string tic_label(double ohms) {
  if (ohms >= 1e6) return fmt::format("{:g} M", ohms / 1e6);
  return ohms >= 1e3 ? fmt::format("{:g} k", ohms / 1e3) : fmt::format("{:g}", ohms);
}

/// Decades; on a short scale twice and five times as much, too, on a long one every other.
std::string tics(const OhmsScale& scale) {
  constexpr double short_scale = 1.8;  // decades
  constexpr double long_scale = 5.0;
  const double decades = std::log10(scale.high / scale.low);
  const double step = decades > long_scale ? 100.0 : 10.0;
  std::string all;
  for (double decade = 0.01; decade <= scale.high; decade *= step)
    for (const double times : {1.0, 2.0, 5.0}) {
      const double ohms = times * decade;
      if ((times > 1.0 && decades > short_scale) || ohms < 0.999 * scale.low || ohms > scale.high) continue;
      all += quoted_for_gnuplot(tic_label(ohms)) + fmt::format(" {:g}, ", ohms);
    }
  return all + fmt::format("'OL' {:.6g}", scale.open_middle());
}

std::string axis_of_ohms(char axis, const OhmsScale& scale) {
  return fmt::format("set logscale {0}\nset {0}range [{1:.6g}:{2:.6g}]\nset {0}tics ({3})\n", axis, scale.low,
                     scale.open_to, tics(scale));
}

std::string script_head(int height) {
  return fmt::format("set terminal svg size 340,{} noenhanced background rgb 'white' font 'sans-serif,14'\n", height) +
         "set encoding utf8\n" + std::string(thin_axes) + "set nokey\n";
}

std::string bands_script(const FaultPicture& picture, const Sentences& say) {
  const OhmsScale scale = ohms_scale(picture);
  const Unit celsius = say.unit_for({Dimension::temperature, picture.kelvin.back()});
  std::string script = script_head(230) + axis_of_ohms('y', scale);
  script += "set ylabel " + quoted_for_gnuplot("Ω") + "\nset xlabel " +
            quoted_for_gnuplot(celsius.symbol(Spelling::screen)) + "\n$bands << EOD\n";
  for (std::size_t i = 0; i < picture.kelvin.size(); ++i)
    script += fmt::format("{:.6g}", celsius.from_si(picture.kelvin[i])) + ohms_ends(picture.good[i], scale) +
              ohms_ends(picture.faulty[i], scale) + open_ends(picture.good[i], scale) +
              open_ends(picture.faulty[i], scale) + '\n';
  script += "EOD\n";
  return script + fmt::format(
                      "plot $bands using 1:2:3 with filledcurves {0}, $bands using 1:6:7 with filledcurves {0}, $bands "
                      "using 1:4:5 with filledcurves {1}, $bands using 1:8:9 with filledcurves {1}, $bands using 1:4 "
                      "with lines {2}, $bands using 1:5 with lines {2}\n",
                      good_look, faulty_look, faulty_edge);
}

std::string bars_script(const FaultPicture& picture) {
  constexpr int of_a_row = 52;
  constexpr int around = 56;
  constexpr int columns_of_a_name = 15;
  const OhmsScale scale = ohms_scale(picture);
  const auto rows = static_cast<int>(picture.rows.size());
  std::string script = script_head(around + of_a_row * rows) + axis_of_ohms('x', scale);
  script += fmt::format("set yrange [{}.5:0.5]\nset xlabel ", rows) + quoted_for_gnuplot("Ω") + "\nset ytics (";
  for (std::size_t i = 0; i < picture.rows.size(); ++i)
    script +=
        (i == 0 ? "" : ", ") + wrapped_for_gnuplot(picture.rows[i], columns_of_a_name) + fmt::format(" {}", i + 1);
  script += ")\nunset grid\n";
  int number = 0;
  const auto add = [&](const std::string& ends, double above, double below, std::string_view look) {
    if (ends.starts_with(" NaN")) return;
    const std::size_t gap = ends.find(' ', 1);
    script += fmt::format("set object {} rectangle from {}, {:.2f} to {}, {:.2f} {}\n", ++number,
                          ends.substr(1, gap - 1), above, ends.substr(gap + 1), below, look);
  };
  for (std::size_t i = 0; i < picture.rows.size(); ++i) {
    const double row = static_cast<double>(i) + 1.0;
    for (const auto ends : {&ohms_ends, &open_ends}) {
      add(ends(picture.good[i], scale), row - 0.36, row - 0.04, good_look);
      add(ends(picture.faulty[i], scale), row + 0.04, row + 0.36, faulty_look);
    }
  }
  return script + "plot NaN notitle\n";
}

}  // namespace

std::string fault_picture_script(const FaultPicture& picture, const Sentences& say) {
  return picture.kelvin.empty() ? bars_script(picture) : bands_script(picture, say);
}

std::optional<std::string> drawn_fault_picture(const FaultPicture& picture, const Sentences& say) {
  std::optional<std::string> svg = run_program({"gnuplot", "-"}, fault_picture_script(picture, say));
  if (svg && svg->find("<svg") == std::string::npos) return std::nullopt;
  return svg;
}

}  // namespace ohmwright
