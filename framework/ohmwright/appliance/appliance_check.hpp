#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

/// Something that a look at a whole appliance finds in its file, which could be read all the same.
struct ApplianceFinding {
  enum class Form : std::uint8_t {
    // Wrong: the file does not say what was meant.
    loose_node,          ///< one terminal alone is there, and what reads it reads the part alone, if anything does
    supply_unconnected,  ///< something is read live, and no part is at this node of the supply
    joined_ends,         ///< all leads of this part are at one node
    same_place,          ///< both probes of this test point are at one place
    reads_nothing,       ///< no way can lead between the probes of this test point, or no current through its clamp
    unreached_part,      ///< no test point, whatever is set up, shows any fault of this part
    // To know: what no reading here can find out.
    unseen_fault,      ///< no reading that the file allows shows this fault; what people see must tell it
    never_told_apart,  ///< every reading that the file allows is the same for these two faults
  };

  Form form = Form::loose_node;
  std::size_t subject = 0;         ///< index of the node, the test point or the part; unused where faults are named
  std::optional<PartFault> fault;  ///< of `unseen_fault` and `never_told_apart`
  std::optional<PartFault> other;  ///< of `never_told_apart`

  friend bool operator==(const ApplianceFinding&, const ApplianceFinding&) = default;
};

/// Whether the file must be mended for it.
bool is_wrong(ApplianceFinding::Form form);

/// What connections alone tell, in the order of the forms: of its nodes, its test points, its parts and their faults.
///
/// A fault is shown by a test point if it changes something on a way between the probes, other parts being healthy, in
/// a set-up in which that reading can be taken. Whether the change is large enough for a meter, and which faults look
/// alike, needs the values of the network and is asked elsewhere (`locate/`).
std::vector<ApplianceFinding> check_appliance(const Appliance& appliance);

}  // namespace ohmwright
