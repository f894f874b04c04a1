#pragma once

#include <string>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

/// The gettext domain of what people read in shipped appliance files.
inline constexpr const char* appliance_text_domain = "ohmwright-appliances";

/// The appliance with its titles, steps and signs in the reader's language, as far as the catalogue of shipped
/// appliances has them: a copy of a shipped file reads as it does, and what somebody worded on their own stays as it
/// is. Names that files and options go by are left alone.
Appliance in_readers_words(Appliance appliance);

/// One text of a shipped appliance in the reader's language.
std::string in_readers_words(const std::string& text);

}  // namespace ohmwright
