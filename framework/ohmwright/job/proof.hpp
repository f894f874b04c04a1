#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include <ohmwright/job/service_call.hpp>

namespace ohmwright::job {

/// Something that is not proved yet.
struct ProofStep {
  enum class Form : std::uint8_t {
    // These bar energising, a live step, a forced defrost, and closing as repaired. A part that was mended where it is
    // counts as one that was replaced.
    leak_to_earth,              ///< the last reading at `part`, a test point, found a way to the protective earth
    insulation_not_within,      ///< the last insulation reading of `part` is out of limits
    insulation_undecided,       ///< it decides nothing: read with too few volts
    insulation_unread,          ///< `part` was replaced, and its insulation was not read since
    circuit_insulation_unread,  ///< `part`, without insulation of its own, was replaced, and none was read since
    no_insulation_read,         ///< it tingles, smells burnt or leaked, and no insulation within limits was read since
    earth_bond_not_within,      ///< the last reading of the earth bond is out of limits
    earth_bond_undecided,       ///< it decides nothing: read with too little current
    earth_bond_unread,          ///< a part was replaced, or it tingled, and the earth bond was not read since
    condemned_for_good,         ///< what opens once in `part` was condemned at `place`, and mended or read good since
    new_part_not_within,        ///< the last reading of the new `part` at `place` is out of limits
    heat_did_not_end,  ///< a forced defrost did not end by itself, none has since, and nothing was repaired since
    // These bar closing as repaired and nothing else: who looks for a fault must go on reading.
    opened_for_good,  ///< what opens once in `part` was condemned at `place`, and no new one went in since
    part_not_within,  ///< the last reading of `part`, at `place`, is out of limits, and nothing was done to it since
    mended_unread,    ///< `part` was mended where it is, and nothing read of it since shows that the fault is gone
    insulation_unproved,  ///< something was read in it, and no insulation within limits
    earth_bond_unproved,  ///< something was read in it, and no earth bond within limits
    heat_did_not_come,    ///< a forced defrost did not heat, none passed since, and nothing was repaired since
    log_shows_fault,      ///< a log shows a fault, none is good since, and nothing was repaired since
    heat_end_unproved,    ///< a forced defrost did not end by itself before the last repair, and none has since
    heat_unproved,        ///< one did not heat before the last repair, and none passed since
    log_unproved,         ///< a log showed a fault before the last repair, and none is good since
    // This bars a forced defrost and what is read in one (`bars_to_heating`), with what is open of that part above.
    limit_unread,  ///< `part`, which limits the heat, went in, and nothing read since shows it good
    // These do not; but who closes as repaired all the same says why.
    new_part_undecided,  ///< no reading of the new `part` is within limits, and the last at `place` decides nothing
    new_part_unread,     ///< `part` was read before it was replaced, and the new one was not
    // These are told.
    forced_defrost,  ///< none failed, and none was tried after the last repair, or it decided nothing
    log,             ///< none failed, and none from after the last repair was read, or it decides nothing
  };

  Form form = Form::log;
  std::string part = {};     ///< id of a part, a kind, or a test point; empty: none
  std::string subject = {};  ///< what people call it
  /// Of a new part: where the old one was read, or where the new one was, bad or undecided: TESTPOINT[@SETUP], or the
  /// part.
  std::string place = {};
  bool mended = false;     ///< `part` was mended where it is; no new one went in
  std::string entry = {};  ///< id of the entry that stands against it and may be taken back; empty: none does

  bool bars_energising() const { return form < Form::opened_for_good; }
  bool bars_closing() const { return form < Form::limit_unread; }
  /// Whether nobody leaves it plugged in before: what bars energising, and what is only tried with somebody beside it.
  bool bars_leaving_it_plugged_in() const { return bars_energising() || is_danger(); }
  /// Whether a check failed and did not pass since.
  bool is_failed_check() const {
    return form == Form::heat_did_not_end || form == Form::heat_did_not_come || form == Form::log_shows_fault ||
           form == Form::heat_end_unproved || form == Form::heat_unproved || form == Form::log_unproved;
  }
  /// Whether nobody knows that the new part is good, so that a repair is called one only with a word why.
  bool leaves_new_part_open() const { return form == Form::new_part_undecided || form == Form::new_part_unread; }
  /// Whether a reading found the part itself bad, or none that decides was taken since it went in or was mended.
  bool leaves_part_unproved() const {
    return form == Form::condemned_for_good || form == Form::opened_for_good || form == Form::part_not_within ||
           form == Form::new_part_not_within || form == Form::new_part_undecided || form == Form::mended_unread;
  }
  /// Whether it was found bad, so that nothing live is said beside it without a word, and nobody leaves it plugged in.
  bool is_danger() const {
    return form == Form::leak_to_earth || form == Form::insulation_not_within || form == Form::earth_bond_not_within ||
           form == Form::condemned_for_good || form == Form::heat_did_not_end || form == Form::heat_end_unproved;
  }
};

/// Everything that is unproved, what bars energising first. What counts is when a reading was taken, as it was stated,
/// and not when somebody wrote it down: a reading from before a part went in says nothing of that part.
std::vector<ProofStep> open_proof(const ServiceCall& call);

/// Those of them that bar energising; while there is one, no live step, no forced defrost, no closing as repaired.
std::vector<ProofStep> bars_to_energising(const ServiceCall& call);

/// What bars heating it up: a forced defrost, and what is read live in one. A part that limits the heat was read bad,
/// or went in or was mended and was not read good since: what nothing ends may burn. `limits_heat` tells of a part, or
/// of a kind that was judged alone.
std::vector<ProofStep> bars_to_heating(const ServiceCall& call,
                                       const std::function<bool(const std::string& part)>& limits_heat);

/// The last check of that form since the last repair; null: none.
const Check* last_check(const ServiceCall& call, CheckForm form);

/// What there is to prove in an appliance before it is called repaired.
struct SafetyAsked {
  bool insulation = true;  ///< a part of it has insulation to read
  bool earth_bond = true;  ///< it has a protective earth
};

/// Those that bar closing as repaired. Where something was read on this visit, and nothing replaced or mended, its
/// covers were off all the same: insulation and earth bond are to be within limits as after a replacement.
std::vector<ProofStep> bars_to_closing(const ServiceCall& call, const SafetyAsked& asked);

/// The last reading that condemned what opens once and for good in a part, where no new one went in since; null: none.
/// Neither a mend in place takes it away, nor a reading that finds it closed: only a new part, or taking it back.
const MeasuredValue* last_condemned_for_good(const ServiceCall& call, const std::string& part);

/// The rule under which the book keeps what a reading between a conductor and the protective earth says of a leak: out
/// of limits where there is one, undecided where none is seen (only an insulation tester proves that there is none).
inline constexpr std::string_view leak_rule = "leak-to-earth";

}  // namespace ohmwright::job
