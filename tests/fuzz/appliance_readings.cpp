// Reads any bytes as readings of a shipped appliance. What is read stands in circumstances that the appliance knows;
// what is refused is an Error that a terminal takes as text.
#include <cstdint>
#include <unistd.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/appliance/appliance_readings.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;

const Appliance& upright() {
  static const Registry kinds({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  static const Appliance appliance = read_appliance(
      read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances/upright-timer-bimetal-120v.json"),
      kinds);
  return appliance;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  Appliance appliance = upright();
  try {
    for (const StatedReading& reading : read_appliance_readings(parse_document(text, "file"), appliance)) {
      fuzz::require(reading.test_point < appliance.test_points.size());
      const auto set_up = circumstances_of(reading, appliance);
      fuzz::require(!set_up || *set_up < appliance.set_ups.size());
      fuzz::require(circumstances_of(reading, appliance) == set_up);
    }
  } catch (const Error& refusal) {
    fuzz::require(refusal.category() != ErrorCategory::internal);
    fuzz::require_printable(refusal.what());
  }
  return 0;
}
