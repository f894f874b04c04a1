#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/cycles/reading/head_table.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::cycles {

/// A column with what it holds.
struct ChosenColumn {
  std::size_t index = 0;
  LogQuantity quantity = LogQuantity::power;
  std::optional<Unit> unit;
};

/// The columns that are read, each with its unit, in the order of the log: the picked ones, or, where none is picked,
/// those that the header's words or the values speak for. `taken` are the columns of time. What was guessed, what
/// nobody named a unit for, and which columns are not used is added to `findings`.
std::vector<ChosenColumn> choose_quantities(const HeadTable& table, const std::vector<std::size_t>& taken,
                                            const std::vector<ChosenColumn>& picked, std::vector<LogFinding>& findings);

}  // namespace ohmwright::cycles
