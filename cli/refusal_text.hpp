#pragma once

#include <string>

#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cli {

/// What people are told of a refusal: one that is a caution in their language, every other in English, as it stands.
std::string refusal_text(const Error& error);

}  // namespace ohmwright::cli
