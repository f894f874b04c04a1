#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/job/proof.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job_book_file.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// How what is not proved yet is typed: "ohmwright job read heater insulation=200M --test 500V"; empty where no one
/// line does it.
std::string proof_command(const job::ProofStep& step);

/// Ids of the cautions of a step, as the book keeps them.
std::vector<std::string> caution_ids_of_step(std::string_view step);

/// What bars energising, each in one sentence.
std::vector<std::string> bar_texts(const job::ServiceCall& call, const Sentences& say);

/// Throws CautionRefusal for something done live while it is not proved safe to energise, as it stood at that time
/// (`time_text`; empty: now). The sentence names the `{step}`, if any, and the `{bars}`.
void refuse_to_energise(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                        const std::string& step = {});

/// Throws CautionRefusal for a forced defrost while a part that limits the heat was read bad, as it stood at that time,
/// and nothing was done to it since: what nothing ends may burn.
void refuse_bad_limit(const JobAtHand& job, const std::string& happened, const Environment& environment);

/// The explicit yes to a live step, which is recorded with it. Throws InputError without one.
job::NewEntry agreement(const std::string& step, const Arguments& arguments);

}  // namespace ohmwright::cli
