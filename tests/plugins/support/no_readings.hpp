#pragma once

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace fixture {

/// Evidence of nothing: the parts of the wrong plugins do not look at it.
inline ohmwright::Evidence no_readings(const ohmwright::Descriptor& descriptor) {
  ohmwright::Meter meter{"none",
                         "No meter",
                         "made up for this test",
                         {},
                         ohmwright::parse_stated_value("0 ohm", ohmwright::Dimension::resistance)};
  return {descriptor, {}, ohmwright::MeterSet({meter})};
}

}  // namespace fixture
