#pragma once

#include <memory>
#include <vector>

#include <ohmwright/component/kind.hpp>

namespace ohmwright::kind_file {

/// The kind that a document valid against schemas/kind.schema.json describes. What is wrong with it is added to
/// `problems`, all at once; the result is then null. The document may go afterwards.
std::unique_ptr<Kind> kind_of(const ValueNode& document, std::vector<Problem>& problems);

}  // namespace ohmwright::kind_file
