// Reads any bytes as a readings file, and as the record of readings and of a verdict that another process wrote.
// Readings that are accepted come back equal through their record; what is refused is an Error that a terminal takes as
// text.
#include <cstdint>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/verdict_record.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;

template <class Read>
void try_to(Read read) {
  try {
    read();
  } catch (const DocumentError& refusal) {
    fuzz::require_printable(refusal.what());
  }
}

void require_same_through_record(const std::vector<Reading>& readings) {
  const std::vector<Reading> back = readings_from_record(readings_record(readings));
  fuzz::require(back.size() == readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) fuzz::require(equal(back[i], readings[i]));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try_to([text] { require_same_through_record(read_readings(parse_document(text, "file"), fuzz::kind())); });
  try_to([text] { require_same_through_record(readings_from_record(text)); });
  try_to([text] {
    const RecordedVerdict recorded = verdict_from_record(text, fuzz::kind());
    const std::string record = verdict_record(recorded.verdict, fuzz::kind(), recorded.sources);
    fuzz::require(equal(verdict_from_record(record, fuzz::kind()).verdict, recorded.verdict));
  });
  return 0;
}
