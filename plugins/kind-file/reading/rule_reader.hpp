#pragma once

#include "model/definition.hpp"
#include "reading/notes.hpp"

namespace ohmwright::kind_file {

/// Reads what stands under "limits", with what moves them, and the texts.
void read_limits(const ValueNode& rule, const Definition& definition, RuleForm& form, RuleDescriptor& descriptor,
                 Notes& notes);

/// Reads what stands under "contact", and the texts.
void read_contact(const ValueNode& rule, const Definition& definition, RuleForm& form, RuleDescriptor& descriptor,
                  Notes& notes);

/// Whether a path beside the part changes its reading: ohms, farads, henries, read without supply.
constexpr bool is_passive(Dimension dimension) {
  return dimension == Dimension::resistance || dimension == Dimension::capacitance ||
         dimension == Dimension::inductance;
}

}  // namespace ohmwright::kind_file
