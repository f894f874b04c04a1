#include "job/wet_readings.hpp"

#include <vector>

#include <ohmwright/job/part_proof.hpp>

namespace ohmwright::cli {

namespace {

std::vector<Reading> wet_readings_of(const job::ServiceCall& call, const std::string& part) {
  const job::ReplacedPart* work = call.last_work_on(part);
  std::vector<Reading> wet;
  for (const job::MeasuredValue& value : call.readings) {
    if (value.subject() != part || (work != nullptr && value.happened_before(*work))) continue;
    for (Reading& reading : job::readings_of(value))
      if (reading.moisture == Moisture::wet && reading.connection != Connection::in_circuit)
        wet.push_back(std::move(reading));
  }
  return wet;
}

}  // namespace

PartCheck with_what_was_wet(const job::ServiceCall& call, const std::string& part, const PartCheck& check,
                            const Arguments& arguments, const Environment& environment) {
  std::vector<Reading> readings = wet_readings_of(call, part);
  if (readings.empty()) return check;
  readings.insert(readings.end(), check.readings().begin(), check.readings().end());
  return checked_part(check.kind(), check.part(), std::move(readings), check.units(), arguments, environment);
}

}  // namespace ohmwright::cli
