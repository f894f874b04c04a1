#pragma once

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::heater {

/// Places in the texts of the rule (element_resistance_texts.cpp).
enum ElementResistanceText : TextIndex {
  cold_within,
  cold_low,
  cold_high,
  cold_far_high,
  cold_one_of_two,
  cold_unsure,
  brought_within,
  brought_low,
  brought_high,
  brought_unsure,
  low_connection_unstated,
  connection_unstated,
  by_load_within,
  by_load_high,
  by_load_low,
  by_load_unsure,
  by_load_gains_more,
  contradicting,
  disagreeing,
  jumping,
  no_ratings,
  no_reading,
  load_leaves_open,
  only_in_circuit,
  only_live,
};

}  // namespace ohmwright::heater
