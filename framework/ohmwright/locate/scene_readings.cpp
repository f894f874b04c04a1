// What an instrument shows of an instance, once every contact of it is in one state.

#include <algorithm>
#include <cmath>
#include <numbers>

#include <ohmwright/locate/error_source.hpp>
#include <ohmwright/locate/probed_scene.hpp>
#include <ohmwright/locate/reading_range.hpp>

namespace ohmwright::locate {

namespace {

/// Input resistance of a voltmeter in its low-impedance mode [ohm] (common practice, no source).
constexpr double low_input_ohm = 10e3;
/// A conductor hangs in the air when it is behind more than this: no coil or winding has as much, and what stray
/// capacitance there is between metres of wire has ten times as much at the line's frequency (assumed, no source).
constexpr double hangs_behind_ohm = 0.5e6;
/// Below this share of the supply nobody takes it for a voltage. A ghost leaves no more on a low-impedance input, be
/// that one of some hundred kilohms (assumed, no source).
constexpr double ghost_share = 0.05;
/// Volts that stray into leads and wires that nothing feeds, whatever hangs on them: at least these, or that share of
/// the supply; on a low-impedance input less (common practice, no source).
constexpr double stray_volt = 2.0;
constexpr double stray_share = 0.01;
constexpr double stray_on_low_input = 0.25;

double squared(double x) { return x * x; }

/// Standard uncertainty of a meter: what its gain has in all its readings, and all of it [SI].
struct MeterUncertainty {
  double of_gain = 0.0;
  double whole = 0.0;
};

MeterUncertainty meter_uncertainty(const Meter& meter, Probe probe, double value_in_si) {
  const Dimension dimension = dimension_of(probe);
  const MeterFunction* function = function_for(meter, dimension);
  double gain = 0.02 * value_in_si;  // of an instrument whose data sheet does not name this function
  double whole = gain;
  if (function != nullptr && !function->ranges.empty()) {
    const MeterRange* range = range_for(*function, {}, AnyQuantity(dimension, value_in_si));
    if (range == nullptr) range = &function->ranges.back();
    gain = range->percent_of_reading / 100.0 * value_in_si;
    whole = accuracy_half_width(*range, value_in_si);
  }
  return {gain / std::numbers::sqrt3, whole / std::numbers::sqrt3};
}

}  // namespace

double Prober::ProbedScene::stray_volts(bool low_impedance) const {
  const double most = std::max(stray_volt, stray_share * appliance_.supply.voltage.value.value_in_si());
  return low_impedance ? stray_on_low_input * most : most;
}

const circuit::Voltmeter& Prober::ProbedScene::low_impedance_voltmeter(Group& group) const {
  if (!group.low_impedance_voltmeter) {
    const auto hertz = Frequency::from_value(appliance_.supply.frequency.value.value_in_si());
    const std::vector<circuit::Change> lifted = changes_of(group);
    group.low_impedance_voltmeter.emplace(scene_.network(), hertz, Resistance::from_value(low_input_ohm), group.pairs,
                                          lifted);
  }
  return *group.low_impedance_voltmeter;
}

void Prober::ProbedScene::read(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  switch (place.probe) {
    case Probe::ohms:
      return read_ohms(place, weight, outcomes);
    case Probe::volts:
      return read_volts(place, weight, outcomes);
    case Probe::amperes:
      return read_amperes(place, weight, outcomes);
  }
}

PredictedOutcome Prober::ProbedScene::value_outcome(Probe probe, double weight, double value_in_si) const {
  const Scale scale = scale_of(probe);
  std::vector<SharedError> errors;  // shares still in the reading's unit
  double variance = 0.0;
  // Two pieces of one wire have one error between them, whose shares add up.
  const auto add = [&](std::uint64_t from, double share) {
    const auto same = std::find_if(errors.begin(), errors.end(),
                                   [&](const SharedError& error) { return from != 0 && error.source == from; });
    if (same != errors.end()) {
      variance += squared(same->share + share) - squared(same->share);
      same->share += share;
      return;
    }
    variance += squared(share);
    if (from != 0 && share != 0.0) errors.push_back({from, share});
  };
  for (std::size_t i = 0; i < sensitivities_.size(); ++i) {
    if (of_cut_[i] != 0.0) add(cut_sources_[i], sensitivities_[i] * values_[i] * of_cut_[i]);
    if (!(spread_[i] > 0.0)) continue;
    const double both = sensitivities_[i] * values_[i] * spread_[i];
    const double of_temperature = of_temperature_[i];
    add(sources_[i], both * std::sqrt(1.0 - squared(of_temperature)));
    if (of_temperature > 0.0) add(sources_[i] + branch_marks_[i], both * of_temperature);
  }
  const MeterUncertainty of_meter = meter_uncertainty(meter_, probe, value_in_si);
  add(source::gain + static_cast<std::uint64_t>(probe), of_meter.of_gain);
  variance += squared(of_meter.whole) - squared(of_meter.of_gain);
  if (probe == Probe::ohms) {
    add(source::leads, meter_.lead_resistance.half_width.value_or(0.0) / std::numbers::sqrt3);
    variance += squared(probe_contact_ohm) / 3.0;
  }
  PredictedOutcome outcome{weight,
                           PredictedOutcome::Form::value,
                           scale.at(value_in_si),
                           scale.uncertainty_at(value_in_si, std::sqrt(variance)),
                           {}};
  const auto most = static_cast<std::ptrdiff_t>(std::min(PredictedOutcome::most_shared, errors.size()));
  std::partial_sort(errors.begin(), errors.begin() + most, errors.end(),
                    [](const SharedError& a, const SharedError& b) { return std::abs(a.share) > std::abs(b.share); });
  constexpr double worth_keeping = 0.05;  // of the whole uncertainty
  for (std::ptrdiff_t i = 0; i < most; ++i) {
    const SharedError& error = errors[static_cast<std::size_t>(i)];
    if (std::abs(error.share) < worth_keeping * std::sqrt(variance)) break;
    outcome.shared.push_back({error.source, error.share * scale.uncertainty_at(value_in_si, 1.0)});
  }
  return outcome;
}

void Prober::ProbedScene::read_ohms(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  circuit::Ohmmeter::Variant variant = place.group->ohmmeter->with(changes_);
  const std::optional<Resistance> reading = variant.reading(place.index);
  if (!reading) {
    outcomes.push_back({weight, PredictedOutcome::Form::over_range, 0.0, 0.0, {}});
    return;
  }
  variant.sensitivities(place.index, sensitivities_);
  outcomes.push_back(value_outcome(Probe::ohms, weight, reading->value()));
  bend_wide_shares(place, reading->value(), outcomes.back());
}

void Prober::ProbedScene::read_volts(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  const bool has_low_input = place.low_impedance || meter_.low_impedance;
  const circuit::Voltmeter& voltmeter = has_low_input ? low_impedance_voltmeter(*place.group) : *place.group->voltmeter;
  circuit::Voltmeter::Variant variant = voltmeter.with(changes_);
  const double volts = circuit::magnitude(variant.reading(place.index)).value();
  const double supply = appliance_.supply.voltage.value.value_in_si();
  const bool hangs = variant.source_impedance(place.index).value() > hangs_behind_ohm;
  if (hangs && !has_low_input && volts > ghost_share * supply) {
    outcomes.push_back({weight, PredictedOutcome::Form::floating, 0.0, 0.0, {}});
    return;
  }
  variant.sensitivities(place.index, sensitivities_);
  outcomes.push_back(value_outcome(Probe::volts, weight, volts));
  double stray = stray_volts(has_low_input);
  if (hangs && has_low_input) stray = std::max(stray, ghost_share * supply);
  if (volts < stray) outcomes.back().uncertainty = std::hypot(outcomes.back().uncertainty, stray_on_scale(stray));
}

void Prober::ProbedScene::read_amperes(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  circuit::ClampAmmeter::Variant variant = place.group->ammeter->with(changes_);
  const std::optional<circuit::CurrentPhasor> reading = variant.reading(place.index);
  if (!reading) {  // joined conductors share it in a way that no value tells
    outcomes.push_back({weight, PredictedOutcome::Form::value, 0.0, scale_of(Probe::amperes).at(breaker_amperes), {}});
    return;
  }
  variant.sensitivities(place.index, sensitivities_);
  outcomes.push_back(value_outcome(Probe::amperes, weight, circuit::magnitude(*reading).value()));
}

}  // namespace ohmwright::locate
