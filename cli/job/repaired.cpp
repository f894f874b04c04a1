// Six things stand before "repaired", in the order in which it asks for them.

#include "job/repaired.hpp"

#include <algorithm>
#include <vector>

#include <ohmwright/job/proof.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>

#include "job/safety.hpp"
#include "job/search.hpp"
#include "job/untouched.hpp"
#include "job/worked_part.hpp"

namespace ohmwright::cli {

namespace {

/// Before each of what stands against it, a line of its own.
constexpr const char* next_item = "\n  - ";

/// First: a suspected leak of refrigerant, which no repair of another part takes away.
std::string leak_suspected(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment) {
  if (!stops_at_sealed_system(call, arguments, environment)) return {};
  return "is not closed as repaired: what was seen speaks of the sealed refrigerant system; close it for licensed "
         "work: "
         "ohmwright job close stopped. Once those licensed for it have seen to it, say what is no longer so: ohmwright "
         "job sign --no-symptom ID, or --looked CAUSE=fine";
}

/// Second: what was read bad, was not read, or is not proved safe. What is recorded as repaired is what somebody will
/// plug in and touch, so that no word lets it through: only a reading does, or taking a slip back.
std::string unproved(const job::ServiceCall& call, const Sentences& say, const Environment& environment) {
  std::string all;
  std::string ways;
  for (const job::ProofStep& bar : job::bars_to_closing(call, safety_asked(call, environment))) {
    all += next_item + printable(proof_text(bar, say));
    if (!bar.bars_energising()) ways += (ways.empty() ? " " : "; ") + proof_command(bar);
  }
  if (all.empty()) return {};
  return "is not closed as repaired:" + all + "\n  See: ohmwright job verify" +
         (ways.empty() ? std::string() : ";" + printable(ways));
}

/// Third: a part that the search named is no good one because another went in. Where something was replaced or mended,
/// who knows better says why (--because); where nothing was, that word says what was repaired and clears no part.
std::string left_as_it_is(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment) {
  if (call.has_new_repair() && arguments.has("--because")) return {};
  const std::vector<NamedPart> untouched = named_and_untouched(call, arguments, environment);
  if (untouched.empty()) return {};
  const NamedPart& part = untouched.front();
  return "is not closed as repaired: by what was read " + printable(part.title) +
         " is at fault, and nothing says that it was replaced or mended; say which: ohmwright job replace " + part.id +
         " --new NAME" +
         (part.may_open_for_good ? ", which alone repairs what opened for good, or --mended TEXT of a joint"
                                 : ", or --mended TEXT where it stays in its place") +
         (!call.has_new_repair() ? "" : "; or why it is repaired all the same: --because TEXT");
}

/// Fourth: readings since the last repair by which something is still wrong, though they do not tell what.
std::string still_wrong(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment) {
  if (arguments.has("--because") || !speaks_of_a_fault_since_repair(call, arguments, environment)) return {};
  return "is not closed as repaired: by what was read since the repair something is still wrong; go on searching "
         "(ohmwright job find), read it again, or say why it is repaired all the same: --because TEXT";
}

/// Fifth: a new part that nobody could tell to be good, or whose cause nobody looked for, or that is to end the heat
/// and was not read so. It is called a repair only by who says why (--because).
std::string new_part_left_open(const job::ServiceCall& call, const Arguments& arguments, const Sentences& say,
                               const Environment& environment) {
  if (arguments.has("--because")) return {};
  std::vector<job::ProofStep> left = job::open_proof(call);
  std::erase_if(left, [](const job::ProofStep& step) { return !step.leaves_new_part_open(); });
  for (const job::ProofStep& step : heat_limits_unproved(call, environment))
    if (std::none_of(left.begin(), left.end(), [&](const job::ProofStep& told) { return told.part == step.part; }))
      left.push_back(step);
  std::string all;
  for (const job::ProofStep& step : left)
    all += next_item + printable(proof_text(step, say)) + " " + proof_command(step) + ".";
  if (all.empty()) return {};
  return "is not closed as repaired without a word why:" + all +
         "\n  Prove it so, or say why it is repaired all the same: --because TEXT";
}

/// Sixth: nothing was replaced or mended since it was last closed so, if it was: what an earlier visit repaired is not
/// what this one did. Then the word that lets it through says what was repaired (--because).
std::string nothing_repaired(const job::ServiceCall& call, const Arguments& arguments) {
  if (call.has_new_repair() || arguments.has("--because")) return {};
  return std::string("has no part replaced or mended in place") +
         (call.repairs_closed > 0 ? " since it was last closed so" : "") +
         "; say with --because what was repaired, or close it as declined";
}

}  // namespace

NotRepaired why_not_repaired(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment) {
  const Sentences say{UnitPreferences{}};
  const bool repairs = call.has_new_repair();  // where nothing was repaired no word clears a part
  NotRepaired not_yet{leak_suspected(call, arguments, environment)};
  if (not_yet.why.empty()) not_yet = {unproved(call, say, environment)};
  if (not_yet.why.empty()) not_yet = {left_as_it_is(call, arguments, environment), repairs};
  if (not_yet.why.empty()) not_yet = {still_wrong(call, arguments, environment), true};
  if (not_yet.why.empty()) not_yet = {new_part_left_open(call, arguments, say, environment), true};
  if (not_yet.why.empty()) not_yet = {nothing_repaired(call, arguments), true};
  if (not_yet.why.empty()) not_yet = {};
  return not_yet;
}

}  // namespace ohmwright::cli
