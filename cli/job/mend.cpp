// A part or joint that is mended where it is: a crimp, a connector pushed on, a terminal cleaned.

#include "job/mend.hpp"

#include <algorithm>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/part_proof.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/reading_entry.hpp"
#include "job/safety.hpp"
#include "job/untouched.hpp"
#include "job/worked_part.hpp"

namespace ohmwright::cli {

namespace {

/// What protects by opening once is not bridged: once it was read open, only a new one is a repair, and before that it
/// is read closed by itself, so that a poor crimp of it may be made anew.
void refuse_what_opens_for_good(const WorkedPart& part, const job::ServiceCall& call) {
  if (job::last_condemned_for_good(call, part.part) != nullptr)
    throw CautionRefusal(
        OHMWRIGHT_TEXT(
            "{part} was out of its limits, and opens once and for good: no work in its place makes it good, "
            "and a bridge takes the protection away. Replace it: ohmwright job replace {id} --new NAME. If that "
            "reading was a slip, take it back: ohmwright job correct ENTRY"),
        {{"part", part.title}, {"id", part.part}});
  const bool was_read = std::any_of(call.readings.begin(), call.readings.end(), [&](const job::MeasuredValue& reading) {
    return reading.part == part.part && reading.outcome.has_value();
  });
  if (opens_once_and_for_good(part.kind->descriptor()) && !was_read)
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{part} opens once and for good, and was not read by itself: read it first, one of its leads "
                       "off: ohmwright job read {id} VALUE --lead-off. Open, it is replaced and never bridged; only a "
                       "joint of one that is closed is mended."),
        {{"part", part.title}, {"id", part.part}});
}

}  // namespace

int mend_and_tell(JobAtHand& job, const Arguments& arguments, Environment& environment, bool with_commands) {
  if (arguments.has("--new") || arguments.has("--old"))
    throw InputError(
        "--mended says that the part stays in its place, and --new or --old that another goes in; leave "
        "one of them out");
  const std::string what = arguments.value("--mended");
  if (what.empty()) throw InputError("--mended takes what was done, such as --mended \"crimped anew\"");
  const WorkedPart part = worked_part(job, arguments, environment);
  const std::string happened = time_of_work(arguments);
  const job::ServiceCall before = call_at(job, happened);
  refuse_what_opens_for_good(part, before);
  job::ContentWriter content;
  add_work(part, place_that_spoke_against(before, part.part, arguments, environment), content);
  write_and_end_unsafe_wait(job, {{job::EntryForm::mended, content.text("mended", what).content(), happened}},
                            environment);
  warn_of_early_time(job, happened, environment);
  const Sentences say{UnitPreferences{}};
  PageLayout page(environment.page);
  page.block(say(OHMWRIGHT_TEXT("{part}: mended in place. It counts as repaired once it is read good."),
                 {{"part", part.title}}));
  page.section(say(OHMWRIGHT_TEXT("Before you touch it")), caution_lines_of_work(part, say));
  if (with_commands) {
    std::vector<std::string> then = proof_before_energising(part, say);
    then.push_back(say(OHMWRIGHT_TEXT("Read it again: ohmwright job read {part} VALUE, then ohmwright job verify"),
                       {{"part", part.part}}));
    page.section(say(OHMWRIGHT_TEXT("Then")), then);
  }
  environment.out << page.take();
  return exit_done;
}

}  // namespace ohmwright::cli
