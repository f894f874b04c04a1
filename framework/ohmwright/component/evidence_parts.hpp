#pragma once

#include <span>
#include <string>
#include <vector>

#include <ohmwright/component/evidence.hpp>

namespace ohmwright {

/// All that an `Evidence` holds, laid open: for a process that judges what another one has prepared.
struct EvidenceParts {
  std::vector<PreparedReading> readings;
  std::vector<ErrorSource> sources;
  std::vector<std::string> labels;  ///< by `PreparedReading::reading`
};

/// Makes the evidence anew of other readings, as its constructor does, in the memory that it has: for a program that
/// judges one part after another. After an exception it holds nothing that could be judged; make it anew again.
OHMWRIGHT_CORE_API void prepare_again(Evidence& evidence, const Descriptor& descriptor,
                                      std::span<const Reading> readings, const MeterSet& meters);

OHMWRIGHT_CORE_API EvidenceParts parts_of(const Evidence& evidence);

/// The evidence of these parts, equal to the one that they were taken from. Throws Error (internal) for a reading
/// without a label.
OHMWRIGHT_CORE_API Evidence evidence_of(EvidenceParts parts);

}  // namespace ohmwright
