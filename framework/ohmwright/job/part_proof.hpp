#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/reading.hpp>
#include <ohmwright/job/proof.hpp>

namespace ohmwright::job {

// Whether the parts do their work, by what was read of them.

/// Whether a reading shows a way open: OL, or a contact that is.
bool shows_open(const Reading& reading);

/// The readings of a record as the book keeps it; none where it keeps none, or one that this version cannot read: what
/// they would prove is not proved then, and the job goes on.
std::vector<Reading> readings_of(const MeasuredValue& reading);

/// The last reading that condemned what opens once and for good in a part, where no new one went in since; null: none.
/// Neither a mend in place takes it away, nor a reading that finds it closed: only a new part, or taking it back.
const MeasuredValue* last_condemned_for_good(const ServiceCall& call, const std::string& part);

/// Adds the parts that read bad, whatever else was repaired, and those that were mended in place and not read since.
void add_part_proof(const ServiceCall& call, std::vector<ProofStep>& all);

/// Adds the new parts of which nobody can tell whether they are good, and those that were not read as the old one was.
void add_open_new_parts(const ServiceCall& call, std::vector<ProofStep>& all);

/// Adds what opens once and for good, went in for one that opened, or tripped and was pressed in or exchanged, where
/// nothing says what overheated that: a cause that may (`Overheating`) and was found, another part that may, was read
/// bad and repaired, or a forced defrost that has ended since.
void add_unlooked_causes(const ServiceCall& call, std::vector<ProofStep>& all);

/// Adds the parts that went in and were neither read good since nor seen open, as `limit_unread`, but those of which
/// `all` says that they are not proved.
void add_unread_new_parts(const ServiceCall& call, std::vector<ProofStep>& all);

}  // namespace ohmwright::job
