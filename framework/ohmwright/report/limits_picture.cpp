#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/limits_picture.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t most_strips = 4;
constexpr int strip_height = 165;

/// What one rule measured and the limits it held that against [SI].
struct Strip {
  std::string_view title;
  AnyQuantity measured{Dimension::ratio, 0.0};
  double half_width = 0.0;
  Limits limits;
};

std::optional<Strip> strip_of(const Finding& finding, const Descriptor& descriptor) {
  if (finding.outcome == Outcome::silent || !finding.measured || !finding.measured_uncertainty) return std::nullopt;
  if (!finding.limits.lower && !finding.limits.upper) return std::nullopt;
  return Strip{descriptor.rules[finding.rule].title, *finding.measured,
               std::numbers::sqrt3 * *finding.measured_uncertainty, finding.limits};
}

/// How far two values lie apart, as people compare ohms with megohms: by their ratio.
double apart(double a, double b) {
  constexpr double least = 1e-12;  // a nought, and what leads that were subtracted leave below it
  return std::abs(std::log(std::max(a, least) / std::max(b, least)));
}

/// Whether the figure of a rule comes of what the chart draws. A finding names its rule, not its reading, and the
/// insulation of an element is resistance, too: so it is the chart's unless a reading of another measurand lies much
/// nearer. (Not merely nearer: a rule fuses readings, moves them to another temperature, and swaps the probes.)
bool comes_of_charted(const VerdictReport& report, std::uint16_t charted, const Strip& strip) {
  constexpr double much_nearer = 0.5;
  double of_charted = std::numeric_limits<double>::infinity();
  double of_others = of_charted;
  for (const PreparedReading& reading : report.evidence.readings()) {
    if (reading.shown != Shown::value || reading.measurand == not_found ||
        report.descriptor.measurands[reading.measurand].dimension != strip.measured.dimension())
      continue;
    double& distance = reading.measurand == charted ? of_charted : of_others;
    const double value = strip.measured.value_in_si();
    distance = std::min({distance, apart(reading.value.value(), value), apart(reading.displayed, value)});
  }
  return !(of_others < much_nearer * of_charted);
}

bool is_drawn_on(const Chart* chart, const VerdictReport& report, const Strip& strip) {
  if (chart == nullptr || is_of_contacts(*chart)) return false;
  const Descriptor& descriptor = chart->descriptor;
  const std::uint16_t charted = index_of(descriptor.measurands, chart->axis.measurand);
  return descriptor.measurands[charted].dimension == strip.measured.dimension() &&
         comes_of_charted(report, charted, strip);
}

std::vector<Strip> strips_of(const VerdictReport& report, const Chart* chart) {
  std::vector<Strip> strips;
  for (const Finding& finding : report.verdict.findings) {
    const std::optional<Strip> strip = strip_of(finding, report.descriptor);
    if (!strip || is_drawn_on(chart, report, *strip)) continue;
    const auto same = std::find_if(strips.begin(), strips.end(), [&](const Strip& other) {
      return other.measured == strip->measured && other.limits.lower == strip->limits.lower &&
             other.limits.upper == strip->limits.upper;
    });
    if (same != strips.end())
      same->title = strip->title;  // an earlier rule borrowed the figure of the one that measured it
    else if (strips.size() < most_strips)
      strips.push_back(*strip);
  }
  return strips;
}

/// The unit of a strip: that in which the reader sees such values, but for the slope of a sensor's curve, which is a
/// difference of temperatures by its dimension and stated in kelvin everywhere.
Unit unit_of(AnyQuantity measured, const Sentences& say) {
  constexpr double larger_than_any_difference = 500.0;  // kelvin
  const bool is_slope =
      measured.dimension() == Dimension::temperature_difference && measured.value_in_si() > larger_than_any_difference;
  return is_slope ? Unit::si(measured.dimension()) : say.unit_for(measured);
}

/// Writes one strip: the span of good parts as a band, the reading as a point with its doubt.
class StripWriter {
 public:
  StripWriter(const Strip& strip, const Descriptor& descriptor, const Sentences& say)
      : strip_(strip), descriptor_(descriptor), say_(say), unit_(unit_of(strip.measured, say)) {
    take(strip.measured.value_in_si() - strip.half_width);
    take(strip.measured.value_in_si() + strip.half_width);
    if (strip.limits.lower) take(strip.limits.lower->value_in_si());
    if (strip.limits.upper) take(strip.limits.upper->value_in_si());
    // From a reading to its limit it can be decades: insulation.
    constexpr double decades_worth_it = 20.0;
    const double value = strip.measured.value_in_si();
    lowest_positive_ = std::min(lowest_positive_, value > 0.0 ? value : lowest_positive_);
    logarithmic_ =
        lowest_positive_ > 0.0 && least_limit() > 0.0 && value > 0.0 && highest_ > decades_worth_it * lowest_positive_;
    widen();
  }

  std::string write() const {
    std::string script = "unset object\nunset logscale\nset xtics autofreq\n";
    if (logarithmic_) script += "set logscale x\n";
    script += "set xrange [" + x(lowest_) + ':' + x(highest_) + "]\n";
    if (!logarithmic_) script += fmt::format("set xtics {:.9g}\n", tic());
    script += "set title " + quoted_for_gnuplot(title()) + "\nset xlabel " + quoted_for_gnuplot(limits_text()) +
              " offset 0,0.4\n";
    script += "set object 1 rectangle from " + side(strip_.limits.lower, lowest_) + ", 0.2 to " +
              side(strip_.limits.upper, highest_) +
              ", 0.8 behind fillcolor rgb '#c9d8e6' fillstyle solid noborder\n$reading << EOD\n";
    const double value = strip_.measured.value_in_si();
    const double least = logarithmic_ ? std::max(lowest_, value - strip_.half_width) : value - strip_.half_width;
    script += x(value) + " 0.5 " + x(least) + ' ' + x(value + strip_.half_width) + "\nEOD\n";
    return script +
           "plot $reading using 1:2:3:4 with xerrorbars linewidth 2 pointtype 7 pointsize 0.7 linecolor rgb "
           "'#a3201a' notitle\n";
  }

 private:
  void take(double value) {
    lowest_ = std::min(lowest_, value);
    highest_ = std::max(highest_, value);
    if (value > 0.0) lowest_positive_ = std::min(lowest_positive_, value);
  }
  double least_limit() const {
    double least = std::numeric_limits<double>::infinity();
    if (strip_.limits.lower) least = std::min(least, strip_.limits.lower->value_in_si());
    if (strip_.limits.upper) least = std::min(least, strip_.limits.upper->value_in_si());
    return least;
  }
  /// The ends must not lie on the frame.
  void widen() {
    constexpr double margin = 0.15;
    constexpr double factor = 3.0;
    if (logarithmic_) {
      lowest_ = lowest_positive_ / factor;
      highest_ *= factor;
      return;
    }
    double reach = highest_ - lowest_;
    if (!(reach > 0.0)) reach = std::max(std::abs(highest_), 1e-12);
    const bool begins_at_zero = lowest_ >= 0.0 && lowest_ < margin * reach;
    lowest_ = begins_at_zero ? 0.0 : lowest_ - margin * reach;
    highest_ += margin * reach;
  }
  std::string x(double si) const { return fmt::format("{:.9g}", unit_.from_si(si)); }
  std::string side(const std::optional<AnyQuantity>& limit, double end) const {
    return x(limit ? limit->value_in_si() : end);
  }
  double tic() const { return round_step(unit_.from_si(highest_) - unit_.from_si(lowest_), 5); }

  std::string title() const {
    return say_(OHMWRIGHT_TEXT("{what}: {value}"),
                {{"what", say_.in_domain(descriptor_.text_domain, strip_.title)}, {"value", text_of(strip_.measured)}});
  }
  /// Shares and slopes are told from their limits by the third and fourth digit.
  std::string text_of(AnyQuantity value) const {
    const bool is_usual = value.dimension() != Dimension::ratio && unit_ == say_.unit_for(strip_.measured);
    if (is_usual || value.dimension() != unit_.dimension()) return say_.quantity(value);
    return display_text(value,
                        {.significant_digits = 4, .spelling = Spelling::screen, .units = {}, .fixed_unit = unit_});
  }
  std::string limits_text() const {
    const std::string lower = strip_.limits.lower ? text_of(*strip_.limits.lower) : std::string();
    const std::string upper = strip_.limits.upper ? text_of(*strip_.limits.upper) : std::string();
    const std::string symbol = unit_.symbol(Spelling::screen);
    const std::string unit = symbol.empty() ? symbol : "[" + symbol + "] ";
    if (upper.empty()) return unit + say_(OHMWRIGHT_TEXT("a good one: {lower} or more"), {{"lower", lower}});
    if (lower.empty()) return unit + say_(OHMWRIGHT_TEXT("a good one: {upper} at most"), {{"upper", upper}});
    return unit + say_(OHMWRIGHT_TEXT("a good one: {lower} to {upper}"), {{"lower", lower}, {"upper", upper}});
  }

  const Strip& strip_;
  const Descriptor& descriptor_;
  const Sentences& say_;
  Unit unit_;
  double lowest_ = std::numeric_limits<double>::infinity();
  double highest_ = -std::numeric_limits<double>::infinity();
  double lowest_positive_ = std::numeric_limits<double>::infinity();
  bool logarithmic_ = false;
};

}  // namespace

std::string limits_script(const VerdictReport& report, const Chart* chart, const Sentences& say) {
  const std::vector<Strip> strips = strips_of(report, chart);
  if (strips.empty()) return {};
  const int count = static_cast<int>(strips.size());
  std::string script = fmt::format(
      "set terminal svg size 480,{} noenhanced background rgb 'white' font 'sans-serif,16'\nset encoding utf8\n",
      count * strip_height);
  script += thin_axes;
  script += "unset key\nunset grid\nset border 1\nunset ytics\nset yrange [0:1]\nset bars 1.5\n";
  script +=
      fmt::format("set lmargin 3\nset rmargin 3\nset tmargin 2\nset bmargin 3.8\nset multiplot layout {},1\n", count);
  for (const Strip& strip : strips) script += StripWriter(strip, report.descriptor, say).write();
  return script + "unset multiplot\n";
}

std::optional<std::string> limits_picture(const VerdictReport& report, const Chart* chart, const Sentences& say) {
  const std::string script = limits_script(report, chart, say);
  if (script.empty()) return std::nullopt;
  std::optional<std::string> svg = run_program({"gnuplot", "-"}, script);
  if (svg && svg->find("<svg") == std::string::npos) return std::nullopt;
  return svg;
}

}  // namespace ohmwright
