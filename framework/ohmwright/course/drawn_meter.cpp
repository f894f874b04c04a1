#include <algorithm>
#include <cmath>

#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/locate/scale.hpp>

namespace ohmwright::course {

namespace {

/// Of the probes at the points that they touch, at most [ohm] (common practice, no source).
constexpr double most_probe_contact_ohm = 0.1;

double centred(DrawStream& draws) { return 2.0 * draws.uniform() - 1.0; }

}  // namespace

DrawnMeter::DrawnMeter(const Meter& meter, DrawStream& draws) : meter_(&meter) {
  gain_share_ = centred(draws);
  const double off = centred(draws) * meter.lead_resistance.half_width.value_or(0.0);
  lead_ohm_ = meter.lead_resistance.value.value_in_si() + off;
}

std::optional<double> DrawnMeter::shown(Probe probe, std::optional<double> value, DrawStream& draws) const {
  // Every reading takes the same number of draws, so that none depends on what others showed.
  const double contact = most_probe_contact_ohm * draws.uniform();
  const double counts_share = centred(draws);
  if (!value) return std::nullopt;
  const double at_probes = probe == Probe::ohms ? *value + lead_ohm_ + contact : std::abs(*value);
  const Dimension dimension = locate::dimension_of(probe);
  const MeterFunction& function = *function_for(*meter_, dimension);
  const MeterRange* range = range_for(function, {}, AnyQuantity(dimension, at_probes));
  if (range == nullptr && probe == Probe::ohms) return std::nullopt;
  if (range == nullptr) range = &function.ranges.back();  // a clamp that reaches further, of the same accuracy
  const double resolution = range->resolution.value_in_si();
  const double of_gain = gain_share_ * range->percent_of_reading / 100.0 * at_probes;
  const double of_counts = counts_share * range->counts * resolution;
  const double counts = std::round((at_probes + of_gain + of_counts) / resolution);
  return std::max(0.0, counts) * resolution;
}

}  // namespace ohmwright::course
