#include <algorithm>

#include <ohmwright/appliance/opens_hot.hpp>

namespace ohmwright {

namespace {

bool is_open_element(const Element& element) { return element.type == ElementType::open; }

bool have_same_ends(const Element& a, const Element& b) { return a.from == b.from && a.to == b.to; }

}  // namespace

std::optional<std::size_t> opening_element(std::span<const Element> good, std::span<const Element> cold,
                                           std::span<const Element> powered) {
  if (!std::ranges::equal(cold, powered, have_same_ends)) return std::nullopt;
  for (std::size_t i = 0; i < cold.size(); ++i) {
    if (cold[i].type != ElementType::resistance || !is_open_element(powered[i])) continue;
    const bool good_ones_conduct = std::ranges::any_of(
        good, [&](const Element& element) { return have_same_ends(element, cold[i]) && !is_open_element(element); });
    if (good_ones_conduct) return i;
  }
  return std::nullopt;
}

}  // namespace ohmwright
