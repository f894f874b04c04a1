#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/job/job_book.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/job/service_call.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// A picture of a report, drawn already.
struct JobPicture {
  std::string svg;
  std::string alternative;  ///< what it shows, in words
};

/// A caution that was shown with a step.
struct JobCaution {
  std::string id;
  std::string brief;  ///< the same in a few words
  std::string text;
  std::string source;
};

/// A call with all that its report needs. Refers to what the caller keeps.
struct JobReport {
  const job::JobLine& line;
  const job::ServiceCall& call;
  std::function<std::string(const std::string&)> local_time;  ///< of a `time_text`, for people
  std::string appliance_title = {};
  std::vector<PossibleFaultLine> possible_before = {};  ///< before the first reading
  std::vector<PossibleFaultLine> possible_now = {};
  std::string found = {};               ///< what the search says now; empty: there is none
  bool cause_is_named = false;          ///< it names a part
  bool stops_at_sealed_system = false;  ///< it ends in "stop: licensed refrigerant work"
  /// What ends its heat and is not proved: old parts that read bad; where it has frost, new ones that nobody read, too.
  std::vector<job::ProofStep> heat_limits = {};
  bool refrigerant_may_burn = false;   ///< or nobody knows that it does not
  std::vector<JobPicture> plots = {};  ///< readings against what good parts read
  std::vector<JobPicture> circuit = {};
  std::vector<std::string> test_points = {};  ///< what the numbers in the circuit stand for
  std::vector<JobPicture> logs = {};
  std::vector<JobCaution> cautions = {};
  std::map<std::string, std::string, std::less<>> cause_titles = {};  ///< of the outside causes, by their ids
  std::string made_with = {};
};

/// What the report says, in the reader's language, before it is laid out.
struct JobContent {
  std::string warning;  ///< what the customer reads first: not to plug it in, and why; empty: nothing bars it
  std::string headline;
  std::vector<std::string> facts;  ///< complaint, appliance, state, call-back
  std::vector<std::string> wrong;  ///< for the customer, from here
  std::vector<std::string> done;
  std::vector<std::string> proof;
  std::vector<std::string> watch;
  std::vector<std::string> phone;                     ///< for the shop, from here
  std::vector<std::vector<std::string>> readings;     ///< a table, its head first
  std::vector<std::string> judged;                    ///< why, and where the doubt came from
  std::vector<std::vector<std::string>> log_figures;  ///< a table, its head first
  std::vector<std::string> replaced;
  std::vector<std::string> checks;
  std::vector<std::string> notes;  ///< and what was agreed to
  std::vector<std::string> open_points;
  std::vector<std::string> unproved;  ///< what is not proved of the repair, and bars nothing
  std::vector<std::string> cautions;
  std::vector<std::string> brief_cautions;  ///< the same in a few words each, for paper
};

JobContent job_content(const JobReport& report, const Sentences& say);
/// The same with what people typed made fit to be shown: nothing in it moves a cursor or turns text around.
JobContent printable_job_content(const JobReport& report, const Sentences& say);

/// The report as a page of text.
std::string job_page(const JobReport& report, const Sentences& say, const PageStyle& style);
/// As a whole HTML page: the customer's part, then the shop's; two sheets of A4 or Letter in print.
std::string job_html(const JobReport& report, const Sentences& say);
/// For programs (schemas/job-report.schema.json), indented, with a final newline.
std::string job_json(const JobReport& report, const Sentences& say);

/// The jobs of a list, one line each; `of` is how many there are in all.
std::string job_list_page(std::span<const job::JobLine> jobs, std::size_t of,
                          const std::function<std::string(const std::string&)>& local_time, const Sentences& say,
                          const PageStyle& style);

/// How wide a card is [columns]: a phone's.
inline constexpr int phone_columns = 40;

/// The next steps on a card as wide as a phone, each with what comes before it and what it can hurt; `first` is what
/// bars energising and heads the card.
std::string job_card(const LocateReport& report, std::span<const std::string> first, std::size_t steps,
                     const Sentences& say, const PageStyle& style);

/// "open", "waiting for a part": a state in the reader's language.
std::string job_state_text(job::JobState state, const Sentences& say);

/// What is not proved yet, and what proves it.
std::string proof_text(const job::ProofStep& step, const Sentences& say);

/// What stands over `JobReport::possible_now`: after a repair these are the faults that were possible before it.
std::string possible_faults_title(const JobReport& report, const Sentences& say);

/// A question of the phone in the reader's language: "Does anybody feel it tingle?".
std::string phone_question(std::string_view question, const Sentences& say);

}  // namespace ohmwright
