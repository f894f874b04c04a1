#pragma once

#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/plugin/registry.hpp>

// Appliance files for tests, read with the kinds of this build.

namespace ohmwright::testing {

/// The kinds that were built.
const Registry& built_kinds();

/// Names of the shipped appliances.
std::vector<std::string> shipped_appliances();

/// Text of a shipped appliance.
std::string shipped_text(const std::string& name);

/// The kinds that a file names and this build does not have: a test of it is skipped with them as its reason.
std::vector<std::string> missing_kinds(const std::string& text);

/// The appliance of that text; throws as `read_appliance` does.
Appliance appliance_of(const std::string& text);

/// What `read_appliance` refuses in it, one line each; "" when nothing.
std::string refusal_of(const std::string& text);

/// A small whole appliance: a fan heater with limit and thermal link, at 230 V.
std::string fan_heater();

/// `fan_heater` with `from` replaced by `to`.
std::string fan_heater_with(const std::string& from, const std::string& to);

}  // namespace ohmwright::testing
