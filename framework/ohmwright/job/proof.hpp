#pragma once

#include <functional>
#include <string>
#include <vector>

#include <ohmwright/job/proof_form.hpp>
#include <ohmwright/job/service_call.hpp>

namespace ohmwright::job {

/// Something that is not proved yet.
struct ProofStep {
  using Form = ProofForm;

  Form form = Form::log;
  std::string part = {};     ///< id of a part, a kind, or a test point; empty: none
  std::string subject = {};  ///< what people call it
  /// Of a new part: where the old one was read, or where the new one was, bad or undecided: TESTPOINT[@SETUP], or the
  /// part.
  std::string place = {};
  bool mended = false;     ///< `part` was mended where it is; no new one went in
  std::string entry = {};  ///< id of the entry that stands against it and may be taken back; empty: none does

  bool bars_energising() const { return row_of(form).bars == Bars::energising; }
  bool bars_closing() const { return row_of(form).bars >= Bars::closing; }
  /// Whether nobody knows that the new part is good, so that a repair is called one only with a word why.
  bool leaves_new_part_open() const { return row_of(form).bars == Bars::closing_without_a_word; }
  bool is_danger() const { return row_of(form).is_danger; }
  /// Whether nobody leaves it plugged in before: what bars energising, and what is only tried with somebody beside it.
  bool bars_leaving_it_plugged_in() const { return bars_energising() || is_danger(); }
  bool is_failed_check() const { return row_of(form).matter == ProofMatter::failed_check; }
  /// Whether a part was read out of its limits, the old one or a new one.
  bool is_read_bad() const { return form == Form::part_not_within || form == Form::new_part_not_within; }
  bool leaves_part_unproved() const { return row_of(form).matter == ProofMatter::part; }
};

/// Everything that is unproved, what bars energising first. What counts is when a reading was taken, as it was stated,
/// and not when somebody wrote it down: a reading from before a part went in says nothing of that part.
std::vector<ProofStep> open_proof(const ServiceCall& call);

/// Those of them that bar energising; while there is one, no live step, no forced defrost, no closing as repaired.
std::vector<ProofStep> bars_to_energising(const ServiceCall& call);

/// Those by which nobody leaves it plugged in: what bars energising, and what is only tried with somebody beside it. A
/// log of days is an appliance that runs.
std::vector<ProofStep> bars_to_leaving_it_plugged_in(const ServiceCall& call);

/// Whether it is proved that nothing leaks: nothing bars energising, and since the last repair an insulation was read
/// within limits at a part that lies at the mains. That an ohmmeter shows no way to the frame is no such proof.
bool insulation_is_proved(const ServiceCall& call);

/// What bars heating it up: a forced defrost, and what is read live in one. A part that limits the heat was read bad,
/// or went in or was mended and was neither read good since nor seen open, a thermostat where it is surely warm: what
/// nothing ends may burn. `limits_heat` tells of a part, or of a kind that was judged alone.
std::vector<ProofStep> bars_to_heating(const ServiceCall& call,
                                       const std::function<bool(const std::string& part)>& limits_heat);

/// What there is to prove in an appliance before it is called repaired.
struct SafetyAsked {
  bool insulation = true;  ///< a part of it has insulation to read
  bool earth_bond = true;  ///< it has a protective earth
};

/// Those that bar closing as repaired. Where something was read on this visit, and nothing replaced or mended, its
/// covers were off all the same: insulation and earth bond are to be within limits as after a replacement, and read on
/// this visit, as their times say. What is from before the job proves it only where all that was read is: then the job
/// was written down once the work was done.
std::vector<ProofStep> bars_to_closing(const ServiceCall& call, const SafetyAsked& asked);

}  // namespace ohmwright::job
