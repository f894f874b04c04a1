#include "drawn_meter.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate::testing {

namespace {

constexpr double probe_contact_ohm = 0.1;

double either_way(ReproducibleStream& stream) { return 2.0 * stream.uniform() - 1.0; }

}  // namespace

DrawnMeter::DrawnMeter(const Meter& meter, ReproducibleStream& stream) : meter_(&meter) {
  gain_share_ = either_way(stream);
  lead_ohm_ =
      meter.lead_resistance.value.value_in_si() + either_way(stream) * meter.lead_resistance.half_width.value_or(0.0);
}

Observed DrawnMeter::displayed(Probe probe, double value, ReproducibleStream& stream) const {
  const Dimension dimension = dimension_of(probe);
  const auto as_read = [&](double number) {
    return StatedValue{AnyQuantity(dimension, number), std::nullopt, Unit::si(dimension)};
  };
  const MeterFunction* function = function_for(*meter_, dimension);
  const double counts_share = either_way(stream);
  const MeterRange* range = range_for(*function, {}, AnyQuantity(dimension, value));
  if (range == nullptr && probe == Probe::ohms) return OverRange{};
  if (range == nullptr) range = &function->ranges.back();  // a clamp that reaches further, of the same accuracy
  const double resolution = range->resolution.value_in_si();
  const double off =
      gain_share_ * range->percent_of_reading / 100.0 * value + counts_share * range->counts * resolution;
  return as_read(std::max(0.0, resolution * std::round((value + off) / resolution)));
}

Observed DrawnMeter::slip(Probe probe, ReproducibleStream& stream) const {
  const ReadingModel assumed;
  const Scale scale = scale_of(probe);
  const double where = stream.uniform();
  if (probe == Probe::ohms && stream.uniform() < assumed.over_range_share) return OverRange{};
  return displayed(probe, scale.linear_below * std::sinh(where * scale.at(scale.largest)), stream);
}

Observed DrawnMeter::shown(const Measurement& measurement, Probe probe, std::optional<double> truth,
                           ReproducibleStream& stream) const {
  const ReadingModel assumed;  // the shares that docs/arithmetic.md states
  const Scale scale = scale_of(probe);
  const auto on_scale = [&](double at) { return scale.linear_below * std::sinh(at); };
  const auto before =
      std::find_if(slips_.begin(), slips_.end(), [&](const auto& made) { return made.first == measurement; });
  if (before != slips_.end() && stream.uniform() < assumed.same_slip_again) {
    ++misreadings_;
    return before->second;
  }
  if (stream.uniform() < assumed.misread_share) {
    ++misreadings_;
    slips_.emplace_back(measurement, slip(probe, stream));
    return slips_.back().second;
  }
  if (probe != Probe::ohms) return displayed(probe, truth.value_or(0.0), stream);
  if (!truth) {
    if (stream.uniform() >= assumed.damp_share) return OverRange{};
    constexpr double damp_ohm = 8e6;
    constexpr double damp_spread = 1.2;
    return displayed(probe, on_scale(scale.at(damp_ohm) + damp_spread * stream.normal()), stream);
  }
  const double contact = probe_contact_ohm * stream.uniform();
  return displayed(probe, *truth + lead_ohm_ + contact, stream);
}

}  // namespace ohmwright::locate::testing
