#pragma once

#include <string>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/document.hpp>

namespace ohmwright {

/// The meter that a document describes (schemas/meter.schema.json).
///
/// Ranges must come smallest first, a resolution be smaller than its range, each dimension stand once; a meter that
/// reads resistance must state that of its leads. Throws DocumentError with all that is wrong.
Meter read_meter(const Document& document);

/// The same of a file, or of standard input for "-": those that are shipped are known to be right and are not held
/// against the schema again. Throws DocumentError as `read_document_to_check` does, too.
Meter read_meter_file(const std::string& path);

}  // namespace ohmwright
