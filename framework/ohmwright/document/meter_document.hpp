#pragma once

#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/document.hpp>

namespace ohmwright {

/// The meter that a document describes (schemas/meter.schema.json).
///
/// Ranges must come smallest first, a resolution be smaller than its range, each dimension stand once; a meter that
/// reads resistance must state that of its leads. Throws DocumentError with all that is wrong.
Meter read_meter(const Document& document);

}  // namespace ohmwright
