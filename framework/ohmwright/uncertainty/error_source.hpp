#pragma once

#include <cstdint>
#include <limits>
#include <string>

namespace ohmwright {

/// Shape of the distribution that an error is believed to have.
enum class Shape : std::uint8_t {
  normal,       ///< a stated expanded uncertainty, a sum of many small errors
  rectangular,  ///< limits without more: u = a/√3 (GUM 4.3.7)
  triangular,   ///< limits, the middle likelier: u = a/√6 (GUM 4.3.9)
  arcsine,      ///< a cycle between limits: u = a/√2 (GUM H.1)
  student_t,    ///< the mean of a few repeated readings
};

/// Something that can be wrong with a reading, once: the gain of the meter, the thermometer, a repeat's scatter.
///
/// Two estimates that hold the same source are correlated through it; that is how the readings of one job share their
/// meter. A source has unit standard uncertainty; how much of it an estimate carries stands in the estimate's term.
struct ErrorSource {
  std::string id;  ///< "meter-gain", "part-temperature": stable, for JSON and translations
  std::string of;  ///< which one, where there are several: name of the meter, label of the reading; may be empty
  Shape shape = Shape::normal;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// Place of a source in its evidence's list.
using SourceIndex = std::uint16_t;

}  // namespace ohmwright
