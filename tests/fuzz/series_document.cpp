// Reads any bytes as a table of readings. What is accepted has readings in the order of their lines, which come back
// equal through their record; what is refused is an Error that a terminal takes as text.
#include <cstdint>
#include <cstdlib>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/series_document.hpp>
#include <ohmwright/quantity/error.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;

int line_of(const Reading& reading) {
  constexpr std::string_view start = "line ";
  fuzz::require(reading.label.compare(0, start.size(), start) == 0);
  return std::atoi(reading.label.c_str() + start.size());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const std::vector<Reading> readings = read_series(text, "file", fuzz::kind(), nullptr);
    fuzz::require(!readings.empty());
    const std::vector<Reading> back = readings_from_record(readings_record(readings));
    fuzz::require(back.size() == readings.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
      fuzz::require(equal(back[i], readings[i]));
      fuzz::require(i == 0 || line_of(readings[i - 1]) <= line_of(readings[i]));
    }
  } catch (const DocumentError& refusal) {
    fuzz::require_printable(refusal.what());
  }
  return 0;
}
