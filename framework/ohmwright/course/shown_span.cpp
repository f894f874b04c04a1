#include <algorithm>
#include <cmath>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/course/shown_span.hpp>
#include <ohmwright/locate/loose_contact.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright::course {

namespace {

/// States of a contact that fewer parts are in are not what a part is like [0…1].
constexpr double least_share_shown = 0.05;

/// All corners of what the candidate leaves open.
std::vector<HeldShares> corners_of(const locate::FaultList& faults, const locate::Candidate& candidate) {
  const bool is_loose = std::any_of(candidate.faults.begin(), candidate.faults.end(),
                                    [&](std::uint16_t fault) { return faults.mode(fault).id == comes_and_goes_mode; });
  std::vector<HeldShares> corners;
  for (const double first : {0.0, 1.0})
    for (const double other : {0.0, 1.0})
      for (const double temperature : {0.0, 1.0})
        for (const double contact : {least_share_shown, 1.0 - least_share_shown}) {
          corners.push_back({first, other, contact, temperature, 0.0});
          if (is_loose) corners.push_back({first, other, contact, temperature, locate::most_loose_ohm});
        }
  return corners;
}

/// The last range of the meter [ohm]; past it is OL.
double most_ohms_of(const Meter& meter) {
  const MeterFunction* function = function_for(meter, Dimension::resistance);
  return function == nullptr ? locate::scale_of(Probe::ohms).largest : function->ranges.back().full_scale.value_in_si();
}

/// What it shows apart at that value [ohm].
double resolution_at(const Meter& meter, double ohms) {
  const MeterFunction* function = function_for(meter, Dimension::resistance);
  const MeterRange* range =
      function == nullptr ? nullptr : range_for(*function, {}, AnyQuantity(Dimension::resistance, ohms));
  return range == nullptr ? 0.0 : range->resolution.value_in_si();
}

/// One end, to a tenth of what lies between both, at least two digits and no more than the meter shows.
std::string end_text(double ohms, double between, const Meter& meter, const Sentences& say) {
  constexpr int fewest_digits = 2;
  constexpr int most_digits = 6;
  constexpr double parts_of_span = 10.0;
  if (ohms < 0.2 * locate::scale_of(Probe::ohms).linear_below) return say(OHMWRIGHT_TEXT("near 0"));
  const double step = std::max(resolution_at(meter, ohms), between / parts_of_span);
  const int digits =
      step > 0.0 ? static_cast<int>(std::floor(std::log10(ohms)) - std::floor(std::log10(step))) + 1 : fewest_digits;
  return Sentences(UnitPreferences{})
      .quantity(AnyQuantity(Dimension::resistance, ohms), std::clamp(digits, fewest_digits, most_digits));
}

}  // namespace

ShownSpan shown_span(const Bench& bench, const Meter& meter, const locate::FaultList& faults,
                     const locate::Candidate& candidate, const locate::Measurement& measurement) {
  const double most_ohms = most_ohms_of(meter);
  DrawStream unused{SecretKey{}};
  ShownSpan span;
  for (const HeldShares& corner : corners_of(faults, candidate)) {
    const std::optional<double> ohms = DrawnBench(bench, faults, candidate, corner).value_at(measurement, unused);
    if (!ohms || *ohms > most_ohms) {
      span.may_be_open = true;
      continue;
    }
    if (!span.ohms) span.ohms = {*ohms, *ohms};
    span.ohms->low = std::min(span.ohms->low, *ohms);
    span.ohms->high = std::max(span.ohms->high, *ohms);
  }
  return span;
}

std::string span_text(const ShownSpan& span, const Meter& meter, const Sentences& say) {
  if (!span.ohms) return "OL";
  const double between = span.ohms->high - span.ohms->low;
  const std::string low = end_text(span.ohms->low, between, meter, say);
  const std::string high = end_text(span.ohms->high, between, meter, say);
  const std::string text = low == high ? low : say(OHMWRIGHT_TEXT("{low} to {high}"), {{"low", low}, {"high", high}});
  return span.may_be_open ? text + " / OL" : text;
}

}  // namespace ohmwright::course
