#pragma once

#include <string>

#include "environment.hpp"

namespace ohmwright::cli {

/// Whether that is the name of a kind, or what people call it.
bool names_a_kind(const Environment& environment, const std::string& name);

/// The file of an appliance for NAME|FILE as text; for the name of a kind, an appliance of one such part (with the
/// ratings of that class) to be laid on the table. Throws InputError naming what there is.
std::string appliance_text_for(const Environment& environment, const std::string& name, const std::string& ratings);

}  // namespace ohmwright::cli
