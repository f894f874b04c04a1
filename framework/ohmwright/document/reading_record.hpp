#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/reading.hpp>

namespace ohmwright {

/// Readings as JSON for another process of ours (a worker, a batch, the job book): values as {"value": 11000,
/// "unit": "ohm"}, nothing lost. People write the other form, schemas/readings.schema.json.
std::string readings_record(std::span<const Reading> readings);

/// The readings of such a record, equal to those it was made from. Throws DocumentError, its file called `name`.
std::vector<Reading> readings_from_record(std::string_view record, const std::string& name = "readings record");

/// Whether two readings are equal in everything, numbers bit for bit.
bool equal(const Reading& a, const Reading& b);

}  // namespace ohmwright
