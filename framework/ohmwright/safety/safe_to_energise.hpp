#pragma once

#include <string_view>

namespace ohmwright {

/// Whether a rule of this id tells if a part may be energised: `insulation`, `earth-bond`, `leakage-current`, whatever
/// the kind. While such a rule is undecided, a part in spec is not yet proved safe, and the verdict says so in its
/// first lines.
bool tells_safe_to_energise(std::string_view rule);

}  // namespace ohmwright
