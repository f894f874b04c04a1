#pragma once

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::wiring {

/// Places in the texts of the rule (end_to_end_texts.cpp).
enum EndToEndText : TextIndex {
  ohms_within,
  ohms_high,
  ohms_unsure,
  below_the_leads,
  less_than_leads,
  fewer_than_copper,
  connection_unstated,
  drop_within,
  drop_high,
  drop_unsure,
  less_than_copper,
  contradicting,
  disagreeing,
  only_continuity,
  high_without_ratings,
  no_ratings,
  no_length,
  no_reading,
  drop_leaves_open,
  only_in_circuit,
  only_live,
};

}  // namespace ohmwright::wiring
