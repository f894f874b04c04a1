#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright {

/// One bar of the budget.
struct DoubtShare {
  std::string label;
  double share = 0.0;  ///< 0…1
};

/// What the page of a verdict says, in sentences of the reader's language, before it is laid out as text or as HTML.
struct VerdictContent {
  std::vector<std::string> cautions;        ///< in full
  std::vector<std::string> brief_cautions;  ///< the same in few words
  std::string headline;
  std::vector<std::string> chances;  ///< what a pass leaves open, what the probability says, how it was found
  std::vector<std::string> reasons;
  std::vector<std::string> readings;
  std::vector<DoubtShare> doubt;  ///< largest first
  std::vector<std::string> advice;
  std::vector<std::string> silent;  ///< rules that had nothing to go on, each with its reason
};

/// Makes the sentences of a verdict.
VerdictContent verdict_content(const VerdictReport& report, const Sentences& sentences,
                               Audience audience = Audience::who_types);

}  // namespace ohmwright
