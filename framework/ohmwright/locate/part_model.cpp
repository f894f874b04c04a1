#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/locate/part_model.hpp>

namespace ohmwright::locate {

namespace {

/// A tolerance of at most this is a spread about one value; past it the value is one of several.
constexpr double widest_linear = 0.35;
/// Below this a resistance is told from zero by no meter of the trade, so that its spread is one about one value [ohm].
constexpr double small_ohm = 0.5;
/// Width of one choice [natural logarithm], and the most choices of one element.
constexpr double choice_width = 0.6;
constexpr int most_choices = 7;
/// Of a range of orders of magnitude that reaches down to nothing, the share of a dead short (assumed, no source).
constexpr double dead_short_share = 1.0 / most_choices;
/// Below this share a contact's other state is not worth a choice.
constexpr double least_share = 1e-3;
/// Up to this many times its tolerance alone, a spread over temperature is taken for the tolerance.
constexpr double mostly_tolerance = 1.25;
/// What a part may be of which nothing is known [ohm].
constexpr double unknown_low = 1.0;
constexpr double unknown_high = 1e6;

/// Simpson's weights for the lower end, the middle and the upper end of a temperature.
constexpr std::array<double, 3> shares{-1.0, 0.0, 1.0};
constexpr std::array<double, 3> share_weights{1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0};

struct Asked {
  ModelAnswer answer = ModelAnswer::unknown;
  std::vector<Element> elements;
};

Asked ask(const Appliance& appliance, std::size_t part, std::uint16_t fault, const Site& site, Excitation excitation,
          double share) {
  Asked asked;
  const PlacedPart& placed = appliance.parts[part];
  const Situation situation = situation_of(appliance, part, site, excitation, share);
  asked.answer = placed.kind->call("its electrical model",
                                   [&] { return placed.part->electrical_model(fault, situation, asked.elements); });
  return asked;
}

bool is_switching(ElementType type) {
  return type == ElementType::contact || type == ElementType::open || type == ElementType::closed;
}

double share_closed(const Element& element) {
  if (element.type == ElementType::open) return 0.0;
  return element.type == ElementType::contact ? element.probability_closed : 1.0;
}

struct Range {
  double low = 0.0;
  double high = 0.0;

  void take_in(const Element& element) {
    const double from = element.value_in_si * (1.0 - element.relative_half_width);
    const double to = element.value_in_si * (1.0 + element.relative_half_width);
    if (high == 0.0) {
      *this = {from, to};
      return;
    }
    low = std::min(low, from);
    high = std::max(high, to);
  }
};

void add_value_choices(ElementType type, Range range, double weight, std::vector<ElementChoice>& choices) {
  if (!(range.high > 0.0)) {
    choices.push_back({weight, ElementType::closed, 0.0, 0.0, false});
    return;
  }
  const double middle = 0.5 * (range.low + range.high);
  const double half_width = 0.5 * (range.high - range.low) / middle;
  if (half_width <= widest_linear || (type == ElementType::resistance && range.high <= small_ohm)) {
    choices.push_back({weight, type, middle, half_width / std::numbers::sqrt3, false});
    return;
  }
  const bool may_be_short = type == ElementType::resistance && range.low < small_ohm;
  if (may_be_short) {
    choices.push_back({dead_short_share * weight, type, 0.5 * small_ohm, 1.0 / std::numbers::sqrt3, false});
    weight *= 1.0 - dead_short_share;
  }
  constexpr double least_share_of_high = 1e-3;  // of what else reaches down to nothing
  const double low =
      std::log(may_be_short                      ? small_ohm
               : type == ElementType::resistance ? range.low
                                                 : std::max(range.low, least_share_of_high * range.high));
  const double width = std::log(range.high) - low;
  const int most = may_be_short ? most_choices - 1 : most_choices;
  const int count = std::clamp(static_cast<int>(std::ceil(width / choice_width)), 2, most);
  const double cell = width / count;
  for (int i = 0; i < count; ++i)
    choices.push_back({weight / count, type, std::exp(low + (i + 0.5) * cell), cell / std::sqrt(12.0), false});
}

/// A contact that is closed or open, by the shares at the three temperatures.
ElementSpread contact_spread(const std::array<const Element*, 3>& at) {
  ElementSpread spread{at[1]->from, at[1]->to, true, {}};
  double closed = 0.0;
  Range range;
  for (std::size_t i = 0; i < at.size(); ++i) {
    closed += share_weights[i] * share_closed(*at[i]);
    if (at[i]->type == ElementType::contact) range.take_in(*at[i]);
  }
  if (closed < least_share) closed = 0.0;
  if (closed > 1.0 - least_share) closed = 1.0;
  if (closed > 0.0) add_value_choices(ElementType::resistance, range, closed, spread.choices);
  if (closed < 1.0) spread.choices.push_back({1.0 - closed, ElementType::open, 0.0, 0.0, false});
  return spread;
}

/// Half-width of a value's tolerance and of its temperature's doubt together, relative. They are two errors, whose
/// variances add up; both at their worst at once would be up to two fifths too wide. Nothing where that is no spread
/// about one value.
std::optional<double> half_width_of_two_errors(const std::array<const Element*, 3>& at) {
  const double tolerance = at[1]->relative_half_width;
  if (!(at[0]->value_in_si > 0.0) || !(at[1]->value_in_si > 0.0) || !(at[2]->value_in_si > 0.0)) return std::nullopt;
  const double of_temperature = 0.5 * std::abs(std::log(at[2]->value_in_si / at[0]->value_in_si));
  const double both = std::hypot(tolerance, of_temperature);
  return both <= widest_linear ? std::optional(both) : std::nullopt;
}

ElementSpread spread_of(const std::array<const Element*, 3>& at) {
  const bool switches = std::any_of(at.begin(), at.end(), [](const Element* e) { return is_switching(e->type); });
  ElementSpread spread{at[1]->from, at[1]->to, false, {}};
  if (switches) {
    spread = contact_spread(at);
  } else if (const std::optional<double> half_width = half_width_of_two_errors(at)) {
    spread.choices.push_back({1.0, at[1]->type, at[1]->value_in_si, *half_width / std::numbers::sqrt3, false});
  } else {
    Range range;
    for (const Element* element : at) range.take_in(*element);
    add_value_choices(at[1]->type, range, 1.0, spread.choices);
  }
  const double half_width_of_all = spread.choices.front().relative_uncertainty * std::numbers::sqrt3;
  if (half_width_of_all > mostly_tolerance * at[1]->relative_half_width)
    for (ElementChoice& choice : spread.choices) choice.is_of_temperature = true;
  std::stable_sort(spread.choices.begin(), spread.choices.end(),
                   [](const ElementChoice& a, const ElementChoice& b) { return a.weight > b.weight; });
  return spread;
}

bool of_one_shape(const Asked& a, const Asked& b) {
  return a.answer == ModelAnswer::stated && b.answer == ModelAnswer::stated &&
         std::equal(a.elements.begin(), a.elements.end(), b.elements.begin(), b.elements.end(),
                    [](const Element& x, const Element& y) { return x.from == y.from && x.to == y.to; });
}

std::vector<ElementSpread> unknown_part() {
  ElementSpread anything{0, 1, false, {}};
  add_value_choices(ElementType::resistance, {unknown_low, unknown_high}, 1.0, anything.choices);
  return {anything};
}

}  // namespace

std::vector<ElementSpread> part_model(const Appliance& appliance, std::size_t part, std::uint16_t fault,
                                      const Site& site, Excitation excitation) {
  std::array<Asked, 3> asked;
  for (std::size_t i = 0; i < asked.size(); ++i) asked[i] = ask(appliance, part, fault, site, excitation, shares[i]);
  const Asked& middle = asked[1];
  if (middle.answer != ModelAnswer::stated) return unknown_part();
  std::vector<ElementSpread> spreads;
  for (std::size_t i = 0; i < middle.elements.size(); ++i) {
    // Where an end of the temperature gives other elements (past a curve's span), the middle stands for it.
    const auto at = [&](std::size_t end) {
      return of_one_shape(asked[end], middle) ? &asked[end].elements[i] : &middle.elements[i];
    };
    spreads.push_back(spread_of({at(0), &middle.elements[i], at(2)}));
  }
  return spreads;
}

}  // namespace ohmwright::locate
