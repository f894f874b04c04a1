#include "part/electrical_model.hpp"

#include <optional>

#include "rules/names.hpp"

namespace ohmwright::fan_motor {

namespace {

// How far each fault goes; assumed, no source.
constexpr double shorted_low_share = 0.5;
constexpr double shorted_high_share = 0.97;
constexpr double blocked_current_share = 1.5;
constexpr double shorted_current_share = 2.0;
constexpr double leak_from_ohms = 1e3;
constexpr double leak_to_ohms = 500e3;

Element ohms_between(TerminalIndex from, TerminalIndex to, Span r) {
  Element made;
  made.type = ElementType::resistance;
  made.from = from;
  made.to = to;
  made.value_in_si = 0.5 * (r.lower + r.upper);
  made.relative_half_width = (r.upper - r.lower) / (r.upper + r.lower);
  return made;
}

Element open_between(TerminalIndex from, TerminalIndex to) {
  Element made;
  made.type = ElementType::open;
  made.from = from;
  made.to = to;
  return made;
}

std::optional<Span> ohms_to_a_meter(const FanMotorRatings& ratings, const Situation& situation) {
  std::optional<Span> limits = ratings.winding_limits();
  if (!limits) return std::nullopt;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (!kelvin) return limits;
  const double factor =
      winding_factor(ratings.conductor_constant, ratings.reference_temperature, Temperature::from_kelvin(*kelvin));
  return Span{factor * limits->lower, factor * limits->upper};
}

/// V/I of a motor on the line, however it is made of resistance and inductance.
std::optional<Span> ohms_to_the_line(const FanMotorRatings& ratings, std::uint16_t fault_mode) {
  if (!ratings.voltage || !ratings.current) return std::nullopt;
  double share = 1.0;
  if (fault_mode == fault_seized || fault_mode == fault_blocked_by_ice) share = blocked_current_share;
  if (fault_mode == fault_shorted_turns) share = shorted_current_share;
  const double nominal = (*ratings.voltage / *ratings.current).value() / share;
  return Span{nominal / (1.0 + ratings.current_tolerance), nominal / (1.0 - ratings.current_tolerance)};
}

}  // namespace

void append_model(const FanMotorRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                  std::vector<Element>& elements) {
  if (fault_mode == fault_open || fault_mode == fault_dead_electronics) {
    elements.push_back(open_between(lead_1, lead_2));
  } else if (ratings != nullptr) {
    const bool on_line = situation.line_frequency_hz > 0.0 || ratings->is_electronic();
    std::optional<Span> r = on_line ? ohms_to_the_line(*ratings, fault_mode) : ohms_to_a_meter(*ratings, situation);
    if (r && !on_line && fault_mode == fault_shorted_turns)
      r = Span{shorted_low_share * r->lower, shorted_high_share * r->upper};
    if (r) elements.push_back(ohms_between(lead_1, lead_2, *r));
  }
  elements.push_back(fault_mode == fault_leaks ? ohms_between(lead_1, frame, {leak_from_ohms, leak_to_ohms})
                                               : open_between(lead_1, frame));
}

}  // namespace ohmwright::fan_motor
