#pragma once

#include <memory>
#include <string>
#include <vector>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/vectors_document.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>

namespace ohmwright {

/// A vector ready to be judged: its part and its readings as evidence.
struct PreparedVector {
  std::shared_ptr<const Part> part;
  MeterSet meters;  ///< the vector's own default first
  JudgeSettings settings;
};

/// Makes the part and orders the meters. Throws DocumentError or InputError for what the vector names and is not there.
PreparedVector prepare_vector(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters);

/// All in which the verdict differs from what the vector expects, in words; empty when it agrees.
std::vector<std::string> differences(const VectorCase& vector, const Descriptor& descriptor, const Verdict& verdict);

/// Judges one vector and compares. A plugin that fails is a difference too.
std::vector<std::string> check_vector(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters);

/// Declared outcomes of rules that no vector's verdict shows, as "rule: outcome".
std::vector<std::string> outcomes_without_a_vector(const LoadedKind& kind, const std::vector<VectorCase>& vectors,
                                                   const MeterSet& meters);

}  // namespace ohmwright
