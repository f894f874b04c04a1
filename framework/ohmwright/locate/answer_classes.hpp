#pragma once

#include <cstddef>
#include <vector>

#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// Readings that lead on alike: all values between two ends, or over-range.
struct AnswerClass {
  SeenReading readings;
  double probability = 0.0;  ///< that the measurement comes out so [0…1]
};

/// What a measurement may show after the last diagnosis, in at most `most` classes by rising value, OL last.
///
/// The readings that the likeliest instances predict are cut into cells; neighbours whose cells tell least about which
/// parts are at fault are joined first. What forbids to energise the appliance and what does not stay apart where
/// `most` leaves room for both (`least_to_energise`). What no instance predicts is in no class: the probabilities sum
/// up to less than 1. Source of the measure: agglomeration by least loss of mutual information, N. Slonim, N. Tishby,
/// Agglomerative information bottleneck, Advances in Neural Information Processing Systems 12 (1999) [from memory].
std::vector<AnswerClass> answer_classes(Reasoner& reasoner, const Measurement& measurement, std::size_t most);

}  // namespace ohmwright::locate
