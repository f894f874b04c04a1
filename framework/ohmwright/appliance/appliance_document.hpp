#pragma once

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright {

/// The appliance that a file describes (schemas/appliance.schema.json), its parts made by their kinds. Throws
/// DocumentError with all that is wrong: the schema, names that are not there, ratings that a kind refuses. The
/// registry outlives the appliance.
Appliance read_appliance(const Document& document, const Registry& registry);

}  // namespace ohmwright
