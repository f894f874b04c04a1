#pragma once

#include <span>

#include "model/definition.hpp"
#include "reading/notes.hpp"

namespace ohmwright::kind_file {

/// What one rule can say of a text of its form.
struct TextUse {
  bool sayable = false;
  FieldSet fields = 0;  ///< that can be filled whenever it is said
};

/// The fields that stand in a sentence as {name}, each once; a note for braces that are no field, and for a field that
/// is not among `available`.
boost::container::static_vector<Field, field_count> fields_in(const ValueNode& text, FieldSet available, Notes& notes);

/// Reads the texts of a rule: those that the file writes and, where it need not, ours. `rows` and `uses` go together.
/// Texts come into the descriptor in the order of the rows, those that the rule never says left out. Of a rule that is
/// not whole only that is noted which is wrong whatever it was meant to be.
void read_texts(std::span<const TextRow> rows, std::span<const TextUse> uses, RuleForm& form,
                RuleDescriptor& descriptor, Notes& notes);

}  // namespace ohmwright::kind_file
