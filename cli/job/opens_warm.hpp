#pragma once

#include "environment.hpp"
#include "part_check.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Whether a reading shows a contact open where it is surely warm: its kind condemns one that is closed there. Of a
/// temperature that nobody measured, or one with a wide doubt, it does not.
bool shows_open_where_warm(const PartCheck& check, const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
