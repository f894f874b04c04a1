#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/document/document.hpp>

namespace ohmwright {

/// The kind that a document says it is about, or null when it does not say.
const std::string* kind_named_in(const Document& document);

/// The readings that a document holds (schemas/readings.schema.json), each checked against the kind: its measurands,
/// its conditions, and their units. A condition without ± takes the kind's half-width, marked as assumed.
///
/// `meters`, where known, say whether a lone 1 is over-range; the first is the default. Throws DocumentError with all
/// that is wrong, names that were probably meant included.
std::vector<Reading> read_readings(const Document& document, const Descriptor& descriptor,
                                   const MeterSet* meters = nullptr);

/// The same for a list of readings inside another document; `default_meter` names the meter of readings that name none.
std::vector<Reading> readings_of(const ValueNode::Array& entries, const Descriptor& descriptor, const MeterSet* meters,
                                 const std::string& default_meter, std::vector<Problem>& problems);

/// Adds a problem when the document says that it is about another kind.
void check_kind(const ValueNode& root, const Descriptor& descriptor, std::vector<Problem>& problems);

}  // namespace ohmwright
