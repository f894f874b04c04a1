#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/appliance/cut_wire.hpp>
#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/locate/loose_contact.hpp>
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
/// What a part may be of which nothing is known [ohm].
constexpr double unknown_low = 1.0;
constexpr double unknown_high = 1e6;

/// A temperature that a part is asked at, with its probability.
struct Point {
  std::optional<double> kelvin;
  double weight = 0.0;
};

/// The lower end, the middle (the second) and the upper end of a temperature, with Simpson's weights; of a zone that
/// nobody measured six again over its whole span, evenly, the ends with half a weight.
std::vector<Point> points_of(const Appliance& appliance, std::size_t part, const Site& site) {
  constexpr std::array<double, 3> shares{-1.0, 0.0, 1.0};
  constexpr std::array<double, 3> simpson{1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0};
  constexpr int steps = 5;
  const std::optional<std::size_t>& zone = appliance.parts[part].zone;
  if (!zone) return {{{}, simpson[0]}, {{}, simpson[1]}, {{}, simpson[2]}};
  const StatedValue& stated = site.zone_temperatures[*zone];
  const std::optional<TemperatureSpan>& not_measured = site.not_measured[*zone];
  const double as_found = not_measured ? not_measured->share_as_found : 1.0;
  std::vector<Point> points;
  for (std::size_t i = 0; i < shares.size(); ++i)
    points.push_back({stated.value.value_in_si() + shares[i] * stated.half_width.value_or(0.0), as_found * simpson[i]});
  if (!not_measured) return points;
  const double from = not_measured->from_kelvin;
  for (int i = 0; i <= steps; ++i)
    points.push_back({from + (not_measured->to_kelvin - from) * i / steps,
                      (1.0 - as_found) / steps * (i == 0 || i == steps ? 0.5 : 1.0)});
  return points;
}

struct Asked {
  ModelAnswer answer = ModelAnswer::unknown;
  std::vector<Element> elements;
};

Asked ask(const Appliance& appliance, std::size_t part, std::uint16_t fault, const Site& site, Excitation excitation,
          std::optional<double> kelvin) {
  Asked asked;
  const PlacedPart& placed = appliance.parts[part];
  const Situation situation = situation_at(appliance, part, site, excitation, kelvin);
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
    choices.push_back({weight, ElementType::closed, 0.0, 0.0});
    return;
  }
  const double middle = 0.5 * (range.low + range.high);
  const double half_width = 0.5 * (range.high - range.low) / middle;
  if (half_width <= widest_linear || (type == ElementType::resistance && range.high <= small_ohm)) {
    choices.push_back({weight, type, middle, half_width / std::numbers::sqrt3});
    return;
  }
  constexpr double rounding = 1e-9;
  const bool may_be_short = type == ElementType::resistance && range.low < (1.0 - rounding) * small_ohm;
  if (may_be_short) {
    choices.push_back({dead_short_share * weight, type, 0.5 * small_ohm, 1.0 / std::numbers::sqrt3});
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
    choices.push_back({weight / count, type, std::exp(low + (i + 0.5) * cell), cell / std::sqrt(12.0)});
}

/// An element at every point of its part's temperature.
struct ElementAt {
  std::vector<const Element*> at;
  std::vector<double> weights;
  bool is_not_measured = false;

  const Element& middle() const { return *at[1]; }
};

/// A contact that is closed or open, by the shares at the temperatures.
ElementSpread contact_spread(const ElementAt& element) {
  ElementSpread spread{element.middle().from, element.middle().to, true, false, false, {}, {}};
  double closed = 0.0;
  double least = 1.0;
  double most = 0.0;
  Range range;
  for (std::size_t i = 0; i < element.at.size(); ++i) {
    const double share = share_closed(*element.at[i]);
    closed += element.weights[i] * share;
    least = std::min(least, share);
    most = std::max(most, share);
    // A contact that is closed in all good parts there is stated as the ohms that it has.
    const ElementType type = element.at[i]->type;
    if (type == ElementType::contact || type == ElementType::resistance) range.take_in(*element.at[i]);
  }
  if (closed < least_share) closed = 0.0;
  if (closed > 1.0 - least_share) closed = 1.0;
  if (closed > 0.0) add_value_choices(ElementType::resistance, range, closed, spread.choices);
  if (closed < 1.0) spread.choices.push_back({1.0 - closed, ElementType::open, 0.0, 0.0});
  // What comes and goes at every temperature does not stay.
  spread.stays = element.is_not_measured && spread.choices.size() > 1 && most > least;
  return spread;
}

/// The middle of a tolerance at the temperatures where it is lowest and highest.
struct Middles {
  double low = 0.0;
  double high = 0.0;

  bool are_values() const { return low > 0.0; }
  /// Relative, as a natural logarithm.
  double half_width() const { return 0.5 * std::log(high / low); }
};
Middles middles_of(const ElementAt& element) {
  const auto below = [](const Element* a, const Element* b) { return a->value_in_si < b->value_in_si; };
  const auto [low, high] = std::minmax_element(element.at.begin(), element.at.end(), below);
  return {(*low)->value_in_si, (*high)->value_in_si};
}

/// A value with the half-width of its tolerance and of its temperature's doubt together, relative. They are two errors,
/// whose variances add up; both at their worst at once would be up to two fifths too wide. Nothing where that is no
/// spread about one value.
struct OneValue {
  double value_in_si = 0.0;
  double half_width = 0.0;
};
std::optional<OneValue> value_with_two_errors(const ElementAt& element) {
  const Middles middles = middles_of(element);
  if (!middles.are_values()) return std::nullopt;
  const double both = std::hypot(element.middle().relative_half_width, middles.half_width());
  if (both > widest_linear) return std::nullopt;
  return OneValue{element.is_not_measured ? std::sqrt(middles.low * middles.high) : element.middle().value_in_si, both};
}

/// Of the two errors together that of the temperature, as `ElementChoice` has it.
double share_of_temperature(const ElementAt& element) {
  const Middles middles = middles_of(element);
  if (!middles.are_values() || !(middles.high > middles.low)) return 0.0;
  return middles.half_width() / std::hypot(element.middle().relative_half_width, middles.half_width());
}

/// On a logarithmic scale, where the choices lie; of a contact, or where there is one choice, the first.
ElementChoice whole_of(const ElementSpread& spread) {
  ElementChoice whole = spread.choices.front();
  if (spread.is_contact || spread.choices.size() < 2) return whole;
  double mean = 0.0;
  for (const ElementChoice& choice : spread.choices) mean += choice.weight * std::log(choice.value_in_si);
  double variance = 0.0;
  for (const ElementChoice& choice : spread.choices) {
    const double off = std::log(choice.value_in_si) - mean;
    variance += choice.weight * (off * off + choice.relative_uncertainty * choice.relative_uncertainty);
  }
  whole.weight = 1.0;
  whole.value_in_si = std::exp(mean);
  whole.relative_uncertainty = std::sqrt(variance);
  return whole;
}

ElementSpread spread_of(const ElementAt& element) {
  const Element& middle = element.middle();
  const bool switches =
      std::any_of(element.at.begin(), element.at.end(), [](const Element* e) { return is_switching(e->type); });
  ElementSpread spread{middle.from, middle.to, false, element.is_not_measured, false, {}, {}};
  if (switches) {
    spread = contact_spread(element);
  } else if (const std::optional<OneValue> one = value_with_two_errors(element)) {
    spread.choices.push_back({1.0, middle.type, one->value_in_si, one->half_width / std::numbers::sqrt3});
  } else {
    Range range;
    for (const Element* at : element.at) range.take_in(*at);
    add_value_choices(middle.type, range, 1.0, spread.choices);
  }
  if (!switches)
    for (ElementChoice& choice : spread.choices) choice.share_of_temperature = share_of_temperature(element);
  std::stable_sort(spread.choices.begin(), spread.choices.end(),
                   [](const ElementChoice& a, const ElementChoice& b) { return a.weight > b.weight; });
  spread.whole = whole_of(spread);
  return spread;
}

bool of_one_shape(const Asked& a, const Asked& b) {
  return a.answer == ModelAnswer::stated && b.answer == ModelAnswer::stated &&
         std::equal(a.elements.begin(), a.elements.end(), b.elements.begin(), b.elements.end(),
                    [](const Element& x, const Element& y) { return x.from == y.from && x.to == y.to; });
}

std::vector<ElementSpread> unknown_part() {
  ElementSpread anything{0, 1, false, false, false, {}, {}};
  add_value_choices(ElementType::resistance, {unknown_low, unknown_high}, 1.0, anything.choices);
  anything.whole = whole_of(anything);
  return {anything};
}

/// A part at every point of its temperature.
struct PartAt {
  std::vector<Asked> asked;
  ElementAt frame;  ///< weights of the points, and whether the temperature was measured

  const Asked& middle() const { return asked[1]; }
  ElementSpread spread(std::size_t element) const {
    ElementAt one = frame;
    // Where a temperature gives other elements (past a curve's span), the middle stands for it.
    for (const Asked& at : asked)
      one.at.push_back(of_one_shape(at, middle()) ? &at.elements[element] : &middle().elements[element]);
    return spread_of(one);
  }
};

PartAt ask_everywhere(const Appliance& appliance, std::size_t part, std::uint16_t fault, const Site& site,
                      Excitation excitation) {
  PartAt all;
  for (const Point& point : points_of(appliance, part, site)) {
    all.asked.push_back(ask(appliance, part, fault, site, excitation, point.kelvin));
    all.frame.weights.push_back(point.weight);
  }
  const std::optional<std::size_t>& zone = appliance.parts[part].zone;
  all.frame.is_not_measured = zone && site.not_measured[*zone];
  return all;
}

/// So many places of a cut, evenly spread, that each piece is one value about each of them, as far as they go.
int places_of(const CutWire& cut) {
  constexpr int most_places = 3;  // each multiplies the shares of the leak itself
  const double shortest = std::min(cut.least_share, 1.0 - cut.most_share);
  int count = 1;
  const auto half = [&] { return 0.5 * (cut.most_share - cut.least_share) / count; };
  while (count < most_places && half() > widest_linear * (shortest + half())) ++count;
  return count;
}

/// What both pieces of a wire are: how much of the whole lies before the cut, and how far that is in doubt (standard).
void take_pieces(ElementChoice whole, double share, double doubt, ElementChoice& first, ElementChoice& second) {
  first = second = whole;
  first.value_in_si *= share;
  first.of_cut = doubt / share;
  second.value_in_si *= 1.0 - share;
  second.of_cut = -doubt / (1.0 - share);
}

/// Two pieces of a wire that together are `whole`.
void cut_in_two(const CutWire& cut, const ElementChoice& whole, ElementSpread& first, ElementSpread& second) {
  const int count = places_of(cut);
  const double cell = (cut.most_share - cut.least_share) / count;
  first.choices.assign(static_cast<std::size_t>(count), {});
  second.choices = first.choices;
  for (int i = 0; i < count; ++i) {
    const auto place = static_cast<std::size_t>(i);
    take_pieces(whole, cut.least_share + (i + 0.5) * cell, cell / std::sqrt(12.0), first.choices[place],
                second.choices[place]);
    first.choices[place].weight = second.choices[place].weight = 1.0 / count;
  }
  take_pieces(whole, 0.5 * (cut.least_share + cut.most_share), count * cell / std::sqrt(12.0), first.whole,
              second.whole);
  second.is_other_piece = true;
}

/// Where a fault cuts a wire in two, its pieces.
void keep_whole(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                const std::vector<Element>& faulty, std::vector<ElementSpread>& spreads) {
  const std::size_t terminals = appliance.parts[part].nodes.size();
  if (faulty.size() < 2 || faulty[0].to < terminals) return;
  const PartAt good = ask_everywhere(appliance, part, not_found, site, excitation);
  if (good.middle().answer != ModelAnswer::stated) return;
  if (const std::optional<CutWire> cut = cut_wire(good.middle().elements, faulty, terminals))
    cut_in_two(*cut, good.spread(0).whole, spreads[0], spreads[1]);
}

}  // namespace

std::vector<ElementSpread> part_model(const Appliance& appliance, std::size_t part, std::uint16_t fault,
                                      const Site& site, Excitation excitation) {
  const PartAt all = ask_everywhere(appliance, part, fault, site, excitation);
  if (all.middle().answer != ModelAnswer::stated) return unknown_part();
  std::vector<ElementSpread> spreads;
  for (std::size_t i = 0; i < all.middle().elements.size(); ++i) spreads.push_back(all.spread(i));
  if (fault == not_found) return spreads;
  keep_whole(appliance, part, site, excitation, all.middle().elements, spreads);
  if (appliance.parts[part].kind->descriptor().fault_modes[fault].id == comes_and_goes_mode)
    for (ElementSpread& spread : spreads) add_ohms_of_loose_contact(spread);
  return spreads;
}

}  // namespace ohmwright::locate
