#pragma once

#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Why a part or a step of that name is not for this program, as the end of an error's sentence; empty where it may be.
/// Refused are the gas side of an appliance, from its pipe to its burner, and the high-voltage side of a microwave
/// oven, by the English words for them and the commonest Spanish, French, German and Italian ones: a name that hides
/// what it is, or says it in another language, cannot be found out. Cautions that warn of either are no work, and are
/// not asked.
OHMWRIGHT_CORE_API std::string_view refused_work(std::string_view name);

/// The same of a text of several sentences, such as a step or an advice: the words must stand within four of each other
/// in one sentence, so that "a gas dryer" and a "line" further on are no gas line; a sentence that says "licensed"
/// sends to others, and is taken. A text between quotation marks is a sentence of its own, so that a JSON document may
/// be asked as it is.
OHMWRIGHT_CORE_API std::string_view refused_work_in_text(std::string_view text);

}  // namespace ohmwright
