#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/fitting.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "instruments.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The rows that a curve is fitted to, with what each is called.
struct CurveRows {
  std::uint16_t measurand = 0;  ///< index into `Descriptor::measurands`
  std::uint16_t condition = 0;  ///< index into `Descriptor::conditions`
  std::vector<MeasuredRow> rows;
  std::vector<std::string> names;
};

/// The readings that were typed after the kind, then those of `--series`, as rows of one measurand: that of `--of`,
/// else that of the first reading. Meters and leads count as in `check`. The condition is the one along which the kind
/// charts the measurand. The units that were written go to `units`. Throws InputError for no rows, a reading of
/// something else, one without its condition; and DocumentError for a file that cannot be read.
CurveRows gather_rows(const Arguments& arguments, const Descriptor& descriptor, Instruments& instruments,
                      UnitPreferences& units);

}  // namespace ohmwright::cli
