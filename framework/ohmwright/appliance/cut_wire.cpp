#include <algorithm>

#include <ohmwright/appliance/cut_wire.hpp>

namespace ohmwright {

namespace {

double lower_end(const Element& element) { return element.value_in_si * (1.0 - element.relative_half_width); }
double upper_end(const Element& element) { return element.value_in_si * (1.0 + element.relative_half_width); }

bool is_resistance(const Element& element) { return element.type == ElementType::resistance; }

}  // namespace

std::optional<CutWire> cut_wire(std::span<const Element> good, std::span<const Element> faulty, std::size_t terminals) {
  if (good.empty() || faulty.size() < 2) return std::nullopt;
  const Element& whole = good[0];
  const Element& first = faulty[0];
  const Element& second = faulty[1];
  const bool is_cut = first.to >= terminals && second.from == first.to && first.from == whole.from &&
                      second.to == whole.to && is_resistance(whole) && is_resistance(first) && is_resistance(second) &&
                      lower_end(whole) > 0.0;
  if (!is_cut) return std::nullopt;
  const CutWire cut{std::max(lower_end(first) / lower_end(whole), 1.0 - upper_end(second) / upper_end(whole)),
                    std::min(upper_end(first) / upper_end(whole), 1.0 - lower_end(second) / lower_end(whole))};
  const bool lies_within = cut.least_share > 0.0 && cut.most_share < 1.0 && cut.least_share <= cut.most_share;
  return lies_within ? std::optional(cut) : std::nullopt;
}

}  // namespace ohmwright
