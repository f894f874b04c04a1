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

/// Reads what stands under "insulation", and the texts.
void read_insulation(const ValueNode& rule, const Definition& definition, RuleForm& form, RuleDescriptor& descriptor,
                     Notes& notes);

/// Whether the rule is on insulation: by its form, or by its least ohms. `dimension` is that of its measurand.
bool asks_for_a_tester(const RuleForm& rule, Dimension dimension);

/// Whether a path beside the part changes its reading: ohms, farads, henries, read without supply.
constexpr bool is_passive(Dimension dimension) {
  return dimension == Dimension::resistance || dimension == Dimension::capacitance ||
         dimension == Dimension::inductance;
}

}  // namespace ohmwright::kind_file
