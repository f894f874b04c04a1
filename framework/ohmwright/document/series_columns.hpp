#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

/// What a column of a series holds.
struct SeriesColumn {
  std::string name;  ///< as the header writes it, without the unit
  const MeasurandDescriptor* measurand = nullptr;
  const ConditionDescriptor* condition = nullptr;
  bool is_time = false;
  std::optional<Unit> unit;      ///< of its bare numbers
  bool unit_is_named = false;    ///< in the header; else the kind's usual one was taken
  bool unit_is_unknown = false;  ///< the header names one that is none: told once, so its cells are passed over

  bool is_read() const { return measurand != nullptr || condition != nullptr || is_time; }
};

/// The columns that the cells of a header name; one that names nothing is not read. What is wrong is added to
/// `problems`, all at the line given.
std::vector<SeriesColumn> series_columns(const std::vector<std::string>& header, int line, const Descriptor& descriptor,
                                         std::vector<Problem>& problems);

}  // namespace ohmwright
