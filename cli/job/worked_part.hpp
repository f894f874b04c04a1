#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job/book_file.hpp"
#include "kind_files.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A part that is replaced, or mended where it is, and what that asks to be proved.
struct WorkedPart {
  std::optional<Appliance> appliance;
  std::optional<std::size_t> placed;  ///< which part of it; empty: none of its parts
  const LoadedKind* kind = nullptr;
  std::string part;  ///< id in the appliance, or of the kind
  std::string title;
  bool tells_insulation = false;  ///< its kind has a rule that tells whether it may be energised
  bool asks_circuit_insulation = false;
  bool has_earth = true;
  bool bears_test_volts = true;  ///< a tester's 500 V prove it; false for what they would destroy
};

/// What the entry keeps of the part, whatever was done to it: what asks to be proved of it, the cautions of the work,
/// and what its kind and its appliance say of the heat that opens it (whether it trips and closes again, and what may
/// have overheated it). `read_through` is where it was named through the circuit (`place_that_spoke_against`).
void add_work(const WorkedPart& part, const std::string& read_through, job::ContentWriter& content);

/// Whether its kind has a rule that tells whether it may be energised.
bool tells_insulation(const Descriptor& descriptor);

/// Whether 500 V prove the insulation of such a part, as its kind judges it: no direct-current fan, whose electronics
/// they destroy.
bool bears_test_volts(const LoadedKind& kind, const RatedPart& part, const Arguments& arguments,
                      const Environment& environment);

/// The part that the first operand names: one of the appliance's, or a kind. Throws InputError with the parts there
/// are; the operand must be there.
WorkedPart worked_part(const JobAtHand& job, const Arguments& arguments, const Environment& environment);

/// What there is to prove in the appliance of a call before it is called repaired; all of it where it has none.
job::SafetyAsked safety_asked(const job::ServiceCall& call, const Environment& environment);

/// What can hurt in work at such a part, and what the procedures of its kind say beside it: ids.
std::vector<std::string> cautions_of_work(const WorkedPart& part);

/// The same in a few words, each on a line of its own: a dozen of them in one paragraph are read by nobody.
std::vector<std::string> caution_lines_of_work(const WorkedPart& part, const Sentences& say);

/// What is to be read before it is energised, as command lines.
std::vector<std::string> proof_before_energising(const WorkedPart& part, const Sentences& say);

}  // namespace ohmwright::cli
