// Reads any bytes as a quantity. Whatever is accepted must come back: bit for bit in the exact form, as shown in the
// displayed form. Whatever is refused must say so in characters that a terminal takes as text.
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <variant>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace {

using namespace ohmwright;

void require(bool holds) {
  if (!holds) std::abort();  // what libFuzzer reports as a finding
}

bool same_bits(double a, double b) { return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b); }

bool is_displayable(double value) { return value == 0.0 || (std::fabs(value) > 1e-290 && std::fabs(value) < 1e290); }

void require_exact_form_comes_back(const StatedValue& stated) {
  const Dimension dimension = stated.value.dimension();
  require(std::isfinite(stated.value.value_in_si()));
  require(!stated.half_width || (std::isfinite(*stated.half_width) && *stated.half_width >= 0.0));
  const StatedValue back = parse_stated_value(exact_text(stated), dimension);
  require(same_bits(back.value.value_in_si(), stated.value.value_in_si()));
  require(back.half_width.has_value() == stated.half_width.has_value());
  if (stated.half_width) require(same_bits(*back.half_width, *stated.half_width));
}

void require_displayed_form_comes_back(const StatedValue& stated, DisplayOptions options) {
  if (!is_displayable(stated.value.value_in_si()) || !is_displayable(stated.half_width.value_or(0.0))) return;
  options.units.prefer(stated.unit);
  const std::string text = display_text(stated, options);
  const StatedValue back = parse_stated_value(text, stated.value.dimension());
  options.fixed_unit = back.unit;
  require(display_text(back, options) == text);
}

void require_printable(std::string_view message) {
  for (const char letter : message) require(static_cast<unsigned char>(letter) >= 0x20 && letter != 0x7f);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 2) return 0;
  const auto dimension = static_cast<Dimension>(data[0] % dimension_count);
  const unsigned choices = data[1];
  const std::string_view text(reinterpret_cast<const char*>(data) + 2, size - 2);
  ObservedOptions options;
  options.lone_one_is_over = (choices & 1U) != 0;
  options.contact_words = (choices & 2U) != 0;
  options.continuity_sound = (choices & 4U) != 0;
  if ((choices & 8U) != 0) options.default_unit = Unit::all_of(dimension).back();
  try {
    const Observed observed = parse_observed(text, dimension, options);
    if (const auto* const stated = std::get_if<StatedValue>(&observed)) {
      require_exact_form_comes_back(*stated);
      DisplayOptions display;
      display.significant_digits = 1 + static_cast<int>(choices >> 4U) % 14;
      display.spelling = (choices & 1U) != 0 ? Spelling::screen : Spelling::ascii;
      require_displayed_form_comes_back(*stated, display);
    } else {
      options.contact_words = true;
      require(parse_observed(exact_text(observed), dimension, options) == observed);
    }
  } catch (const InputError& refusal) {
    require_printable(refusal.what());
  }
  return 0;
}
