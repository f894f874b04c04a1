#pragma once

#include <optional>
#include <string>

#include <ohmwright/batch/run_part.hpp>
#include <ohmwright/batch/summary.hpp>
#include <ohmwright/component/value_tree.hpp>

namespace ohmwright::batch {

/// A summary as JSON (schemas/batch-summary.schema.json), with a final newline: the whole numbers it is made of, and
/// what follows from them (means, drift by lot). With `part` it says of which part of which run it is. Equal summaries
/// give equal bytes.
std::string summary_json(const Summary& summary, const RunPart* part = nullptr);

/// A summary and of what it is.
struct PartSummary {
  Summary summary;
  RunPart part;
};

/// The summary of such a file. Throws DocumentError with all that is wrong, and InputError for one that does not say of
/// what it is.
PartSummary read_summary(const std::string& path);

/// The same of a node, such as the summary within a journal; `file` is how messages call it.
Summary summary_of(const ValueNode& root, const std::string& file);

}  // namespace ohmwright::batch
