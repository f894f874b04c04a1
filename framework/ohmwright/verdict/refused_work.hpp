#pragma once

#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Why a part or a step of that name is not for this program, as the end of an error's sentence; empty where it may be.
/// Refused are the gas side of an appliance, from its pipe to its burner, and the high-voltage side of a microwave
/// oven, by the English words for them and the commonest Spanish, French, German and Italian ones: a name that hides
/// what it is, or says it in another language, cannot be found out. Cautions that warn of either are no names, and are
/// not asked.
OHMWRIGHT_CORE_API std::string_view refused_work(std::string_view name);

}  // namespace ohmwright
