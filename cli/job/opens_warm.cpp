#include "job/opens_warm.hpp"

#include <ohmwright/job/part_proof.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cli {

bool shows_open_where_warm(const PartCheck& check, const Arguments& arguments, const Environment& environment) {
  for (const Reading& reading : check.readings()) {
    const std::uint16_t index = index_of(check.kind().descriptor().measurands, reading.measurand);
    if (!job::shows_open(reading) || index == not_found) continue;
    if (!check.kind().descriptor().measurands[index].takes_contact_state) continue;
    Reading closed = reading;
    closed.observed = ContactState::closed;
    closed.range.reset();
    try {
      const PartCheck other = checked_part(check.kind(), check.part(), {closed}, check.units(), arguments, environment);
      if (other.verdict().outcome == Outcome::out_of_limits) return true;
    } catch (const InputError&) {
      continue;  // it takes no such reading there
    }
  }
  return false;
}

}  // namespace ohmwright::cli
