#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/course/bench.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// What a part reads on the table, good and with each of its faults.
struct FaultTable {
  std::string title;                           ///< between which terminals
  std::vector<std::vector<std::string>> rows;  ///< the first names the columns: fault, as found, each set-up
};

/// One table for each pair of terminals, of the middle part of its tolerance. `bench` is a table (`table_of`).
std::vector<FaultTable> fault_tables(const Bench& bench, const Meter& meter, const Sentences& say);

/// What each fault makes a person see, a line a fault.
std::vector<std::string> fault_symptoms(const Bench& bench, const Sentences& say);

}  // namespace ohmwright::course
