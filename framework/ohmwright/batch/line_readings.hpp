#pragma once

#include <vector>

#include <ohmwright/batch/line_fields.hpp>
#include <ohmwright/batch/quick_quantity.hpp>
#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright::batch {

/// Makes readings of the fields of a line, equal to those that the strict parser makes, into `readings`, whose memory
/// is used again. False where anything is not known here: then the strict parser decides.
bool make_line_readings(const LineFields& fields, const Descriptor& descriptor, const MeterSet& meters,
                        QuickQuantities& quantities, std::vector<Reading>& readings);

}  // namespace ohmwright::batch
