#pragma once

#include <cstddef>
#include <vector>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/expectation.hpp>
#include <ohmwright/locate/learnt.hpp>

namespace ohmwright::locate {

/// The likeliest instances of the last diagnosis as hypotheses.
struct LikelyInstances {
  std::vector<std::size_t> instances;
  Hypotheses hypotheses;
  std::vector<Learnt> learnt;          ///< what the readings so far teach: the same of many instances
  std::vector<std::size_t> learnt_of;  ///< by instance, its place in `learnt`
};

/// At most `most` of them, none so unlikely that it moves no expectation a step is chosen by.
LikelyInstances likely_instances(Reasoner& reasoner, std::size_t most);

/// What a reading is expected to leave: every value that some instance predicts, after what the readings before it
/// taught, taken as it is predicted. A misreading tells nothing and has no part in it. Parts are named whose
/// probability is at least `named`.
Expected expected_of(Reasoner& reasoner, const LikelyInstances& likely, const Measurement& measurement, double named);

}  // namespace ohmwright::locate
