#pragma once

#include <vector>

#include "model/definition.hpp"
#include "reading/notes.hpp"

namespace ohmwright::kind_file {

/// Reads a kind file into `definition`, which points into `document` from then on. What the schema cannot say is added
/// to `problems`, all at once.
void read_definition(const ValueNode& document, Definition& definition, std::vector<Problem>& problems);

/// Notes names and texts of what the program has no part in: the gas side, the high-voltage side of a microwave oven.
void check_refused_names(const ValueNode& document, Notes& notes);

// Its parts, one file each. Each reads what the ones before it have read.

void read_measurands(const ValueNode& document, Definition& definition, Notes& notes);
void read_conditions(const ValueNode& document, Definition& definition, Notes& notes);
/// After the conditions.
void read_states(const ValueNode& document, Definition& definition, Notes& notes);
void read_ratings(const ValueNode& document, Definition& definition, Notes& notes);
void read_rules(const ValueNode& document, Definition& definition, Notes& notes);
/// After the rules: which measurands the volts of a tester of insulation say something of.
void read_test_voltage(const ValueNode& document, Definition& definition, Notes& notes);
void read_advice(const ValueNode& document, Definition& definition, Notes& notes);
void read_cautions(const ValueNode& document, Definition& definition, Notes& notes);
void read_procedures(const ValueNode& document, Definition& definition, Notes& notes);
void read_elements(const ValueNode& document, Definition& definition, Notes& notes);
void read_own_protectors(const ValueNode& document, Definition& definition, Notes& notes);
void read_charts(const ValueNode& document, Definition& definition, Notes& notes);

}  // namespace ohmwright::kind_file
