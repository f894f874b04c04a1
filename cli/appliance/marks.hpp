#pragma once

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/report/appliance_drawing.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// What --mark, or --after with what locate gave as JSON, says of the parts of a drawing. Throws InputError for a part
/// that is not there, DocumentError for a bad file.
PartMarks typed_marks(const Arguments& arguments, const Appliance& appliance, const Sentences& say);

}  // namespace ohmwright::cli
