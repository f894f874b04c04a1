#pragma once

#include <array>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::kind_file {

/// Advice that every kind of a file gives, first in its descriptor, in this order. A file may word it anew under the
/// same id.
enum class StandardAdvice : std::uint8_t {
  lift_a_lead,
  prove_dead,
  read_unplugged,
  dry_it,
  read_again,
  higher_range,
  say_ratings,
  better_meter,
  prove_insulation,
};
inline constexpr std::size_t standard_advice_count = 9;

/// One row of it, with the fields that its sentence may have.
struct StandardAdviceRow {
  AdviceDescriptor text;
  std::uint32_t fields = 0;
};
const std::array<StandardAdviceRow, standard_advice_count>& standard_advice();

}  // namespace ohmwright::kind_file
