#pragma once

#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/component/value_tree.hpp>

namespace ohmwright {

// Parts and splices that a technician finds on site and the appliance's file does not have. Each gives the file with
// the part and a test point at its own terminals, ready for `file_text`; it is to be read again before it is trusted.

/// A part that was found, with its terminals at `nodes` in the kind's order.
struct FoundPart {
  std::string id;
  std::string title;
  const LoadedKind* kind = nullptr;
  std::string ratings;  ///< empty: nothing is known of it
  std::vector<std::string> nodes;
};

/// Throws InputError for fewer than two nodes or more than the kind has terminals.
ValueNode with_part(const ValueNode& file, const FoundPart& part);

/// A splice at a part's terminal: between the terminal and the node where it was connected, by the first two terminals
/// of its kind. Its id is "splice", or "splice-2" and so on where that is taken.
/// Throws InputError where that terminal is connected to nothing.
ValueNode with_splice(const ValueNode& file, const Appliance& appliance, const PartTerminal& at, const LoadedKind& kind,
                      const std::string& ratings);

}  // namespace ohmwright
