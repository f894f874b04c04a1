#pragma once

#include <string>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// The stop after a reading that found a way to the protective earth (`locate::tells_of_leak`).
std::string leak_warning(const Appliance& appliance, const locate::TakenReading& reading, const Sentences& say);

}  // namespace ohmwright
