#pragma once

#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/component/value_tree.hpp>

namespace ohmwright {

/// The tree as the JSON library's own type, places dropped. Whole numbers become integers, so that a schema's "integer"
/// means what it says.
nlohmann::json to_json(const ValueNode& node);

}  // namespace ohmwright
