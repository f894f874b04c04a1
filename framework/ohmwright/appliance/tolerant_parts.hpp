#pragma once

#include <memory>
#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

/// A part whose plugin failed while it was asked what lies between its terminals.
struct FailedPart {
  std::size_t part = 0;  ///< index into `Appliance::parts`
  std::string text;      ///< how it failed, as `NotJudged` says it
};

/// Parts whose plugins failed, in the order in which that was found out. Safe to ask while others search.
class PartFailures {
 public:
  virtual ~PartFailures() = default;
  virtual std::vector<FailedPart> all() const = 0;
};

/// Lets a search go on without what it cannot know: a part of a plugin from outside the installation whose electrical
/// model fails is from then on one of which nothing is known, and its plugin is asked no more of it. Parts of the
/// installation's own plugins stay as they are: what fails there is a defect to be told of.
std::shared_ptr<const PartFailures> tolerate_failures(Appliance& appliance);

}  // namespace ohmwright
