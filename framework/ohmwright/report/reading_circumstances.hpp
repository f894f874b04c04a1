#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/swapped_probes.hpp>
#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright {

/// Whether the part passed by ohms of which it was not said that a lead was off, so that something beside it may have
/// brought a bad part into its limits. Not where such a reading was past the range: nothing lay beside it then.
bool holds_only_if_alone(const VerdictReport& report);

/// The readings that were set aside, each with the one that it contradicts; as often as one was read with its probes
/// swapped.
std::vector<SwappedPair> set_aside_pairs(const VerdictReport& report);

/// Why two readings with the probes swapped were set aside: which they are, and what makes them differ.
std::string set_aside_sentence(const VerdictReport& report, const SwappedPair& pair, const Sentences& say);

}  // namespace ohmwright
