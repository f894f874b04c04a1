#pragma once

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::defrost_control {

/// Places in the texts of the rule (contacts_texts.cpp).
enum ContactsText : TextIndex {
  follow_position,
  board_switches,
  stuck_in_run,
  stuck_in_defrost,
  run_contact_welded,
  defrost_contact_welded,
  run_contact_open,
  defrost_contact_open,
  both_closed,
  none_closed,
  relay_welded,
  comes_and_goes,
  poor_contact,
  connection_unstated,
  one_contact_only,
  run_position_only,
  defrost_position_only,
  position_unstated,
  by_output_only,
  board_at_rest,
  board_not_seen_off,
  board_not_seen_on,
  type_unknown,
  contacts_not_read,
  board_not_read,
  closed_contact_resists,
  range_too_coarse,
  range_too_low,
};

}  // namespace ohmwright::defrost_control
