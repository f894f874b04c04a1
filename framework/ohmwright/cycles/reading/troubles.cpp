#include <ohmwright/cycles/reading/troubles.hpp>

namespace ohmwright::cycles {

std::string_view name_of(LogTrouble trouble) {
  constexpr std::array<std::string_view, log_trouble_count> names{
      "unreadable_time",  "unreadable_value", "missing_value",  "impossible_value",  "unit_slip",
      "repeated_time",    "out_of_order",     "clock_set_back", "clock_set_forward", "clock_set_ahead",
      "clock_began_anew", "missing_cells",    "extra_cells",    "open_quote",        "repeated_header",
      "line_too_long",    "cut_last_line"};
  return names[static_cast<std::size_t>(trouble)];
}

}  // namespace ohmwright::cycles
