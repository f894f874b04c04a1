#pragma once

#include <ohmwright/component/descriptor.hpp>

// What is said of two curves over a span.

namespace ohmwright::defrost_sensor::over_span {

extern const TextEntry one_curve;
extern const TextEntry same_curve;
extern const TextEntry same_curve_known_in_part;

/// How the sentence on a thermistor's difference goes on.
struct Variants {
  TextEntry plain;
  TextEntry ends_early_or_late;
  TextEntry alike_at_room;
  TextEntry both;
};
extern const Variants reads_low;
extern const Variants reads_high;

// Of platinum, where low is cold.
extern const TextEntry reads_warmer;
extern const TextEntry reads_colder;

extern const TextEntry far_apart;
extern const TextEntry past_everything;

extern const TextEntry original_unknown;
extern const TextEntry candidate_unknown;
extern const TextEntry both_unknown;
extern const TextEntry rows_far_apart;

}  // namespace ohmwright::defrost_sensor::over_span
