#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/course/bench.hpp>
#include <ohmwright/course/shown_span.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// What a part reads on the table, good and with each of its faults.
struct FaultTable {
  std::size_t test_point = 0;
  std::string title;                           ///< between which terminals
  std::vector<std::vector<std::string>> rows;  ///< the first names the columns: fault, as found, each set-up
  /// Of each further row what its cells say, the fault's own left out; nothing where the kind does not say it.
  std::vector<std::vector<std::optional<ShownSpan>>> spans;
};

/// One table for each pair of terminals, over the whole tolerance. `bench` is a table (`table_of`).
std::vector<FaultTable> fault_tables(const Bench& bench, const Meter& meter, const Sentences& say);

/// The rows of a table at other temperatures [K].
std::vector<std::vector<std::optional<ShownSpan>>> spans_by_temperature(const Bench& bench, const Meter& meter,
                                                                        std::size_t test_point,
                                                                        std::span<const double> kelvin);

/// What each fault that parts of these ratings can have makes a person see, a line a fault.
std::vector<std::string> fault_symptoms(const Bench& bench, const Sentences& say);

}  // namespace ohmwright::course
