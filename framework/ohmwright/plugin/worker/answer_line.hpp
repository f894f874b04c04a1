#pragma once

#include <optional>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace ohmwright {

/// A line of a worker as JSON, or nothing where it is none, is no object, or holds more than any answer needs: whoever
/// reads what is nested goes down as deep as it is, and a line of a few megabytes can be nested deeper than any stack.
std::optional<nlohmann::json> parsed_answer(std::string_view line);

}  // namespace ohmwright
