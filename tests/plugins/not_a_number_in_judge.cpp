#include <limits>

#include "support/misbehaving_plugin.hpp"

OHMWRIGHT_MISBEHAVING("not-a-number-in-judge", {
  ohmwright::Finding& finding = findings.add(0, ohmwright::Outcome::undecided, 0);
  finding.meaning = ohmwright::ProbabilityMeaning::within_limits;
  finding.probability = std::numeric_limits<double>::quiet_NaN();
})
