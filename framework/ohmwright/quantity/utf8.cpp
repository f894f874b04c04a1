#include <array>
#include <cassert>

#include <ohmwright/quantity/utf8.hpp>

namespace ohmwright {

CodePoint first_code_point(std::string_view text) {
  assert(!text.empty());
  const auto byte = [text](std::size_t place) {
    return static_cast<char32_t>(static_cast<unsigned char>(text[place]));
  };
  const char32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return {};
  char32_t value = lead & (0x7FU >> length);
  for (std::size_t place = 1; place < length; ++place) {
    if ((byte(place) & 0xC0U) != 0x80U) return {};
    value = (value << 6U) | (byte(place) & 0x3FU);
  }
  constexpr std::array<char32_t, 5> smallest{0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < smallest.at(length) || value > 0x10FFFF || surrogate) return {};
  return {value, length};
}

std::size_t count_code_points(std::string_view text) {
  std::size_t count = 0;
  for (; !text.empty(); ++count) text.remove_prefix(first_code_point(text).bytes);
  return count;
}

}  // namespace ohmwright
