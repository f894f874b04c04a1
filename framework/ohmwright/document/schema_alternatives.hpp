#pragma once

#include <string>
#include <variant>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/component/value_tree.hpp>

namespace ohmwright {

/// The alternative of a oneOf or anyOf that a value was meant to be, or what is wrong when that cannot be told.
///
/// Told by type; among objects by fields with a constant or a list of words ("form": "beta"), then by the fields
/// present.
std::variant<const nlohmann::json*, Problem> meant_alternative(const nlohmann::json& root,
                                                               const nlohmann::json& alternatives,
                                                               const ValueNode& node);

/// The problem of a value that more than one alternative of a oneOf accepts.
Problem more_than_one_fits(const nlohmann::json& root, const nlohmann::json& alternatives, const ValueNode& node);

}  // namespace ohmwright
