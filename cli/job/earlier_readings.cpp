#include "job/earlier_readings.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/job/part_proof.hpp>

namespace ohmwright::cli {

namespace {

const StatedValue* temperature_of(const Reading& reading) {
  const auto at = std::find_if(reading.conditions.begin(), reading.conditions.end(),
                               [](const Condition& condition) { return condition.id == "part_temperature"; });
  return at == reading.conditions.end() ? nullptr : &at->value;
}

/// Of a temperature without a ± (common practice, no source).
constexpr double usual_doubt_kelvin = 2.0;

/// Over less a curve does not show itself, and who reads a slip again has hardly another temperature (common practice,
/// no source).
constexpr double least_apart_kelvin = 8.0;

/// Whether two readings are of one quantity at temperatures that are surely not the same.
bool are_at_other_temperatures(const Reading& a, const Reading& b) {
  const StatedValue* first = temperature_of(a);
  const StatedValue* second = temperature_of(b);
  if (first == nullptr || second == nullptr) return false;
  const double doubt = first->half_width.value_or(usual_doubt_kelvin) + second->half_width.value_or(usual_doubt_kelvin);
  return std::abs(first->value.value_in_si() - second->value.value_in_si()) > std::max(doubt, least_apart_kelvin);
}

bool are_of_one_sort(const Reading& a, const Reading& b) { return a.measurand == b.measurand && a.states == b.states; }

/// Whether an earlier reading says something beside each that was read later.
bool counts_beside(const Reading& earlier, const std::vector<Reading>& later) {
  if (earlier.moisture == Moisture::wet)  // of the wet ones what was read last
    return std::none_of(later.begin(), later.end(), [&](const Reading& one) {
      return one.moisture == Moisture::wet && are_of_one_sort(earlier, one);
    });
  return std::any_of(later.begin(), later.end(), [&](const Reading& one) { return are_of_one_sort(earlier, one); }) &&
         std::all_of(later.begin(), later.end(), [&](const Reading& one) {
           return !are_of_one_sort(earlier, one) || are_at_other_temperatures(earlier, one);
         });
}

/// Everything that the book has of the part by itself since the last work on it, read without power, last first.
std::vector<Reading> readings_before(const job::ServiceCall& call, const std::string& part) {
  const job::ReplacedPart* work = call.last_work_on(part);
  std::vector<const job::MeasuredValue*> values;
  for (const job::MeasuredValue& value : call.readings)
    if (value.subject() == part && (work == nullptr || !value.happened_before(*work))) values.push_back(&value);
  std::stable_sort(values.begin(), values.end(),
                   [](const job::MeasuredValue* a, const job::MeasuredValue* b) { return b->happened_before(*a); });
  std::vector<Reading> all;
  for (const job::MeasuredValue* value : values)
    for (Reading& reading : job::readings_of(*value))
      if (reading.connection != Connection::in_circuit && reading.supply != Supply::live)
        all.push_back(std::move(reading));
  return all;
}

}  // namespace

PartCheck with_what_was_read_before(const job::ServiceCall& call, const std::string& part, const PartCheck& check,
                                    const Arguments& arguments, const Environment& environment) {
  const std::vector<Reading>& now = check.readings();
  const bool is_by_itself = std::none_of(now.begin(), now.end(), [](const Reading& reading) {
    return reading.connection == Connection::in_circuit || reading.supply == Supply::live;
  });
  const bool is_open = check.verdict().outcome != Outcome::out_of_limits;  // what is bad alone stays so
  std::vector<Reading> later(now.rbegin(), now.rend());                    // last first
  for (Reading& earlier : readings_before(call, part)) {
    const bool is_wet = earlier.moisture == Moisture::wet;
    if (((is_by_itself && is_open) || is_wet) && counts_beside(earlier, later)) later.push_back(std::move(earlier));
  }
  if (later.size() == now.size()) return check;
  std::reverse(later.begin(), later.end());  // a contact is judged in the order in which it was read
  return checked_part(check.kind(), check.part(), std::move(later), check.units(), arguments, environment);
}

}  // namespace ohmwright::cli
