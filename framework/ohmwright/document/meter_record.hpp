#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/meter.hpp>

namespace ohmwright {

/// Meters as JSON for another process of ours, nothing lost. People write the other form, schemas/meter.schema.json.
std::string meters_record(std::span<const Meter> meters);

/// The meters of such a record, equal to those it was made from. Throws DocumentError, its file called `name`.
std::vector<Meter> meters_from_record(std::string_view record, const std::string& name = "meters record");

/// How strictly to judge, as JSON for another process of ours; and back, with the same errors.
std::string settings_record(const JudgeSettings& settings);
JudgeSettings settings_from_record(std::string_view record, const std::string& name = "settings record");

/// Whether two meters are equal in everything, numbers bit for bit.
bool equal(const Meter& a, const Meter& b);

}  // namespace ohmwright
