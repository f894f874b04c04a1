#pragma once

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::bimetal_thermostat {

/// Places in the texts of the rule (state_at_temperature_texts.cpp).
enum StateText : TextIndex {
  closed_too_warm,
  open_too_cold,
  closed_too_warm_connection_unstated,
  closed_as_type_1,
  open_as_type_1,
  closed_as_it_should,
  open_as_it_should,
  closed_and_either_is_good,
  open_and_either_is_good,
  right_at_both_ends,
  leaks_where_open,
  poor_contact,
  unrated,
  no_state,
  no_temperature,
  only_in_circuit,
  only_live,
  trip_points_tell_more,
  right_at_both_ends_as_type_1,
  comes_and_goes,
  reversed,
  ohms_jump,
  range_too_coarse,
  range_too_low,
  closed_though_cooled,
  open_though_warmed,
  closed_as_this_way,
  open_as_this_way,
  closed_and_good_this_way,
  open_and_good_this_way,
  open_too_cold_pair,
  open_too_cold_connection_unstated,
  comes_and_goes_surely,
};

}  // namespace ohmwright::bimetal_thermostat
