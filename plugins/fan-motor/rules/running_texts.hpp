#pragma once

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::fan_motor {

/// Places in the texts of the rule (running_texts.cpp).
enum RunningText : TextIndex {
  turns_right,
  turns_slow,
  turns_slow_perhaps_held,
  turns_slow_volts_unknown,
  turns_slow_volts_low,
  turns_fast,
  turns_unsure,
  draws_right,
  draws_wrong,
  draws_much_perhaps_held,
  draws_unsure,
  jumping,
  stands_still,
  speed_unknown,
  pulses_unknown,
  no_ratings,
  not_run,
  tach_silent,
  tach_silent_while_turning,
  tach_while_still,
  tach_another_speed,
  turns_wrong_perhaps_pulses,
  turns_right_volts_low,
  turns_without_volts,
  turns_slow_perhaps_pulsed,
  turns_past_synchronous,
  turns_fast_perhaps_blades,
  turns_fast_volts_unknown,
  turns_fast_volts_high,
  draws_at_other_volts,
  draws_little_volts_unknown,
  too_many_volts,
  draws_little_perhaps_air,
  turns_slow_wheel_unknown,
  turns_slow_perhaps_told,
  turns_fast_perhaps_air,
  turns_slow_perhaps_capacitor,
  draws_much_volts_unknown,
  draws_much_perhaps_capacitor,
  draws_right_perhaps_still,
  turns_speed_not_read,
  turns_right_other_frequency,
  turns_wrong_other_frequency,
  draws_at_other_frequency,
  turns_by_a_minus,
};

}  // namespace ohmwright::fan_motor
