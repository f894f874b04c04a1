#pragma once

#include <string>

#include <ohmwright/plugin/registry.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// Whether that is the name of a kind, or what people call it.
bool names_a_kind(const Environment& environment, const std::string& name);

/// The file of an appliance for NAME|FILE as text; for the name of a kind, an appliance of one such part (with the
/// ratings of that class) to be laid on the table. Throws InputError naming what there is.
std::string appliance_text_for(const Environment& environment, const std::string& name, const std::string& ratings);

/// "name --ratings; there are …" where --ratings is not given and the kind has classes; else nothing.
std::string advice_on_ratings(const LoadedKind& kind, const std::string& ratings);

}  // namespace ohmwright::cli
