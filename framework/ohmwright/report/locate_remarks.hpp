#pragma once

#include <string>
#include <vector>

#include <ohmwright/report/locate_report.hpp>

namespace ohmwright {

/// What may mislead whoever reads the readings of a search: a thermostat that is open because it is warm, ways beside a
/// part, a connector that was still in, the test leads' own ohms, readings that disagree, voltages that hang in the
/// air, a neutral that is live, two faults at once. Between source files of this area.
std::vector<std::string> locate_remarks(const LocateReport& report, const Sentences& say);

}  // namespace ohmwright
