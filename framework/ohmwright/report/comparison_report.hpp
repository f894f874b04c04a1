#pragma once

#include <span>
#include <string>

#include <ohmwright/component/comparison.hpp>
#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// A comparison of two parts with what its page needs. Refers to what the caller keeps.
struct ComparisonReport {
  const Descriptor& descriptor;
  std::string original;   ///< what people call the part that is to be replaced
  std::string candidate;  ///< what people call the one that is offered
  std::span<const EquivalenceFinding> findings;
};

/// Out of limits (no equivalent) if any property is; within limits if at least one was compared and none is in doubt;
/// else undecided.
Outcome equivalence(std::span<const EquivalenceFinding> findings);

/// The same of two parts that go by the name of the same ratings: what these do not state sets them not apart, unless
/// they stand for any part.
Outcome equivalence_of_namesakes(std::span<const EquivalenceFinding> findings);

/// Makes silent what the ratings of two such parts leave open; it is to be looked at on the parts.
void silence_what_is_not_stated(std::span<EquivalenceFinding> findings);

/// The page: the answer, then what decides it, what is the same, what could not be compared.
std::string comparison_page(const ComparisonReport& report, const Sentences& say, const PageStyle& style);
/// For programs (schemas/comparison.schema.json), with a final newline.
std::string comparison_json(const ComparisonReport& report, const Sentences& say);

}  // namespace ohmwright
