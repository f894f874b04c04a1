#include "rules/load.hpp"

#include <limits>

#include "rules/contact_grid.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_control {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

}  // namespace

std::optional<Estimate> output_share(const PreparedReading& reading) {
  const Estimate* line = reading.condition(line_voltage);
  if (line == nullptr || !(line->value() > 0.0) || reading.shown != Shown::value) return std::nullopt;
  Estimate share;
  share.add_scaled(reading.value, 1.0 / line->value());
  share.add_uncertainty(*line, -share.value() / line->value());
  return share;
}

bool is_loaded(const PreparedReading& reading, std::span<const ErrorSource> sources, double confidence) {
  const Estimate* load = reading.condition(load_current);
  return load != nullptr && probability_between(*load, sources, least_load_ampere, infinity) >= confidence;
}

OutputState output_state(const PreparedReading& reading, std::span<const ErrorSource> sources, double confidence) {
  const std::optional<Estimate> share = output_share(reading);
  if (!share || !is_live(reading)) return OutputState::none;
  if (probability_between(*share, sources, -infinity, most_share_off) >= confidence) return OutputState::off;
  if (!is_loaded(reading, sources, confidence)) return OutputState::ghost_or_on;
  return probability_between(*share, sources, least_share_on, infinity) >= confidence ? OutputState::on
                                                                                      : OutputState::lossy;
}

OutputSeen output_seen(const Evidence& evidence, double confidence) {
  OutputSeen seen;
  for (const PreparedReading& reading : evidence.readings()) {
    if (reading.measurand != output_voltage) continue;
    const OutputState state = output_state(reading, evidence.sources(), confidence);
    const PlaceIndex place = place_of(reading);
    if (state == OutputState::none || place == anywhere) continue;
    if (place == in_defrost) seen.on_in_defrost = state == OutputState::on;
    if (place == in_run) seen.off_in_run = state == OutputState::off;
  }
  return seen;
}

}  // namespace ohmwright::defrost_control
