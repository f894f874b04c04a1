#pragma once

#include <string>

#include <ohmwright/component/value_tree.hpp>

namespace ohmwright {

/// A tree as the text of a JSON file that people go on writing: what fits on a line stands on one, members in their
/// order, letters beyond ASCII as they are, a final newline. Reading it gives the same tree.
std::string file_text(const ValueNode& root);

}  // namespace ohmwright
