#pragma once

#include <string>

#include <ohmwright/batch/summary.hpp>
#include <ohmwright/component/value_tree.hpp>

namespace ohmwright::batch {

/// A summary as JSON (schemas/batch-summary.schema.json), with a final newline: the whole numbers it is made of, and
/// what follows from them (means, drift by lot). Equal summaries give equal bytes.
std::string summary_json(const Summary& summary);

/// The summary of such a file. Throws DocumentError with all that is wrong.
Summary read_summary(const std::string& path);

/// The same of a node, such as the summary within a journal; `file` is how messages call it.
Summary summary_of(const ValueNode& root, const std::string& file);

}  // namespace ohmwright::batch
