// Reads any bytes as a log and analyses it. Times never run backwards, values are possible, every row that is given is
// counted, events lie within the log; what is refused is an Error that a terminal takes as text.
#include <cmath>
#include <cstdint>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/quantity/error.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;
using namespace ohmwright::cycles;

void check_row(const LogRow& row, double last_second) {
  fuzz::require(std::isfinite(row.time_second) && row.time_second >= last_second);
  for (const LogQuantity quantity : log_quantities) {
    const double value = row.value[index_of(quantity)];
    if (std::isnan(value)) continue;
    fuzz::require(std::isfinite(value));
    if (measured_dimension(quantity) == Dimension::temperature) fuzz::require(value > 200.0 && value < 430.0);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  // The first byte says in which pieces the rest comes.
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
  try {
    LogReader reader(log_in_memory(text, 1 + data[0]));
    LogAnalyser analyser;
    double last_second = 0.0;
    std::uint64_t rows = 0;
    for (std::span<const LogRow> block = reader.next(); !block.empty(); block = reader.next()) {
      for (const LogRow& row : block) {
        check_row(row, last_second);
        last_second = row.time_second;
      }
      rows += block.size();
      analyser.take(block);
    }
    fuzz::require(rows == reader.rows() && rows <= reader.lines());
    const LogAnalysis log = analyser.finish(reader);
    fuzz::require(log.coverage.gap_second <= log.coverage.span_second + 1e-6);
    double before = -1.0;
    for (const Defrost& defrost : log.defrosts) {
      fuzz::require(defrost.start_second >= before && defrost.end_second >= defrost.start_second);
      before = defrost.start_second;
    }
  } catch (const Error& refusal) {
    fuzz::require_printable(refusal.what());
  }
  return 0;
}
