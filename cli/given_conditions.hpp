#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// A value of that condition as typed; its unit is noted in `units`. Throws InputError as parsing does.
AnyQuantity condition_value(const Descriptor& descriptor, std::uint16_t condition, const std::string& text,
                            UnitPreferences& units);

/// The conditions of `--given CONDITION=VALUE`, each named by its id or option. Throws InputError for a word without
/// "=", an unknown condition (naming those there are), and a value that cannot be read.
std::vector<ConditionValue> given_conditions(const Arguments& arguments, const Descriptor& descriptor,
                                             UnitPreferences& units);

/// The row of the option for the verbs' tables.
OptionSpec given_option();

}  // namespace ohmwright::cli
