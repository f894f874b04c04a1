#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job/book_file.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// How what is not proved yet is typed: "ohmwright job read heater insulation=200M --test 500V"; empty where no one
/// line does it.
std::string proof_command(const job::ProofStep& step);

/// Ids of the cautions of a step, as the book keeps them.
std::vector<std::string> caution_ids_of_step(std::string_view step);

/// What bars energising, each in one sentence.
std::vector<std::string> bar_texts(const job::ServiceCall& call, const Sentences& say);

/// The same for any steps.
std::vector<std::string> texts_of(const std::vector<job::ProofStep>& steps, const Sentences& say);

/// Throws CautionRefusal for something done live while it is not proved safe to energise, as it stood at that time
/// (`time_text`; empty: now). The sentence names the `{step}`, if any, and the `{bars}`.
void refuse_to_energise(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                        const std::string& step = {});

/// Throws CautionRefusal where a job is to wait for a log while nobody may leave it plugged in, or while what limits
/// its heat is not proved: it defrosts by itself then.
void refuse_to_leave_it_plugged_in(const JobAtHand& job, const Environment& environment);

/// Writes entries down. Where the job waits for a log and, with them, what limits the heat is not proved or the sealed
/// system speaks, an entry behind them ends the wait, and that is said: the book knows neither roles nor signs.
void write_and_end_unsafe_wait(JobAtHand& job, std::vector<job::NewEntry> entries, Environment& environment);

/// Throws CautionRefusal for what energises or heats it while what was seen speaks of the sealed refrigerant system.
/// The sentence names the `step`.
void refuse_at_sealed_system(const job::ServiceCall& call, const Environment& environment, const std::string& step);

/// What bars heating it up, by the roles of its parts (`limits-heat`): `job::bars_to_heating`. Of a call's appliance,
/// or of one at hand; null: none.
std::vector<job::ProofStep> bars_to_heating(const job::ServiceCall& call, const Environment& environment);
std::vector<job::ProofStep> bars_to_heating(const job::ServiceCall& call, const Appliance* appliance,
                                            const Environment& environment);

/// Of `bars_to_heating` those of an appliance that runs by itself: all of one that has frost, and so heats by itself;
/// of another, which heats while somebody stands by, what was read bad.
std::vector<job::ProofStep> those_that_count(std::vector<job::ProofStep> limits, const job::ServiceCall& call);
std::vector<job::ProofStep> heat_limits_unproved(const job::ServiceCall& call, const Environment& environment);

/// Throws CautionRefusal for a forced defrost, or for what is read in one, while what limits the heat is not proved, as
/// it stood at that time. The sentence names the `{step}`, if any, and the `{bars}`.
void refuse_to_heat(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                    const Environment& environment, const std::string& step = {});

/// The explicit yes to a live step, which is recorded with it. Throws InputError without one.
job::NewEntry agreement(const std::string& step, const Arguments& arguments);

}  // namespace ohmwright::cli
