#include <algorithm>
#include <ostream>
#include <utility>

#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/comparison_report.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/verdict_report.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/book_file.hpp"
#include "job/mend.hpp"
#include "job/reading_entry.hpp"
#include "job/reading_judged.hpp"
#include "job/safety.hpp"
#include "job/untouched.hpp"
#include "job/worked_part.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// What comes out and what goes in, and how they compare.
struct Exchange {
  WorkedPart part;
  RatedPart out;
  RatedPart original;  ///< what the appliance was made for, whatever went in since
  RatedPart in;
  std::string in_file = {};  ///< where a file was named, that as JSON: the book keeps it
  bool new_is_known = false;
  bool is_named_alike = false;  ///< both by the name of the same ratings: what these do not state sets them not apart
  std::vector<EquivalenceFinding> findings;

  Outcome answer() const {
    if (findings.empty()) return Outcome::undecided;
    return is_named_alike ? equivalence_of_namesakes(findings) : equivalence(findings);
  }
};

/// What is in its place now. Of one whose ratings are lost only what they were called is known.
RatedPart part_that_comes_out(const WorkedPart& part, const job::ServiceCall& call) {
  const job::ReplacedPart* last = call.last_new(part.part);
  if (last != nullptr && ratings_are_lost(*part.kind, ratings_that_went_in(call, part.part)))
    return {nullptr, last->new_ratings, last->new_title};
  return placed_part(*part.appliance, *part.placed, call);
}

/// The part that goes in. A file is read once, and kept.
void take_new_part(const std::string& name_or_file, const LoadedKind& kind, Exchange& exchange) {
  exchange.new_is_known = name_or_file != "unknown";
  if (!exchange.new_is_known || !is_path(name_or_file)) {
    exchange.in = rated_part(kind, exchange.new_is_known ? name_or_file : std::string());
    return;
  }
  Document document = read_document_to_check(name_or_file);
  exchange.in_file = file_text(document.root);
  exchange.in = make_rated_part(kind, read_ratings(std::move(document), kind.descriptor()));
}

Exchange typed_exchange(const JobAtHand& job, const Arguments& arguments, const Environment& environment) {
  if (!arguments.has("--new"))
    throw InputError(
        "job replace needs --new NAME|FILE, the ratings of the part that goes in (see: ohmwright ratings), "
        "--new unknown, or, where it stays in its place, --mended TEXT");
  Exchange exchange;
  exchange.part = worked_part(job, arguments, environment);
  const LoadedKind& kind = *exchange.part.kind;
  if (exchange.part.placed) {
    exchange.out = part_that_comes_out(exchange.part, job.call);
    const PlacedPart& as_made = exchange.part.appliance->parts[*exchange.part.placed];
    exchange.original = {as_made.part, as_made.ratings, as_made.title};
    exchange.is_named_alike = arguments.value("--new") == as_made.ratings;
  }
  if (arguments.has("--old") || !exchange.part.placed) {
    exchange.out = rated_part(kind, arguments.value("--old"));
    // What somebody fitted earlier is no measure of what fits: that is what the appliance was made for, if it is known.
    if (exchange.original.part == nullptr) {
      exchange.original = exchange.out;
      exchange.is_named_alike = arguments.value("--new") == arguments.value("--old");
    }
  }
  take_new_part(arguments.value("--new"), kind, exchange);
  exchange.part.bears_test_volts = bears_test_volts(kind, exchange.in, {}, environment);
  if (exchange.new_is_known && exchange.original.part != nullptr)
    exchange.findings = kind.call("comparing two parts", [&] {
      return kind.kind().compare(*exchange.original.part, *exchange.in.part, ComparisonContext{});
    });
  return exchange;
}

/// What speaks against it, or cannot be told.
std::vector<std::string> differences(const Exchange& exchange, const Sentences& say) {
  std::vector<std::string> lines;
  for (const EquivalenceFinding& finding : exchange.findings)
    if (finding.outcome == Outcome::out_of_limits || finding.outcome == Outcome::undecided)
      lines.push_back(with_plain_spaces(
          say.in_domain(exchange.part.kind->descriptor().text_domain, finding.text.english, view(finding.arguments))));
  return lines;
}

void refuse_what_is_no_equivalent(const Exchange& exchange, const Arguments& arguments, const Sentences& say) {
  if (exchange.answer() == Outcome::within_limits || arguments.has("--because")) return;
  std::string why;
  for (const std::string& line : differences(exchange, say)) why += (why.empty() ? "" : " ") + line;
  if (!exchange.new_is_known)
    why = "nobody knows the ratings of the new one.";
  else if (why.empty())
    why = "nobody knows the ratings of the old one (--old NAME|FILE).";
  throw InputError(
      (exchange.answer() == Outcome::out_of_limits
           ? "this part is no equivalent of " + printable(exchange.part.title)
           : "whether this part is an equivalent of " + printable(exchange.part.title) + " cannot be told") +
      ": " + printable(why) + " Take another, or say why it goes in all the same: --because TEXT");
}

std::string page_of(const Exchange& exchange, const Sentences& say, const PageStyle& style, bool with_commands) {
  PageLayout page(style);
  const std::string_view answer =
      exchange.answer() == Outcome::within_limits ? OHMWRIGHT_TEXT("{part}: the new part can stand in for the old one.")
      : exchange.answer() == Outcome::out_of_limits
          ? OHMWRIGHT_TEXT("{part}: the new part is no equivalent, and goes in for a reason.")
          : OHMWRIGHT_TEXT("{part}: whether the new part is equivalent cannot be told.");
  page.block(say(answer, {{"part", exchange.part.title}}));
  page.section(exchange.is_named_alike ? say(OHMWRIGHT_TEXT("Of the same ratings; look on both parts"))
                                       : say(OHMWRIGHT_TEXT("What differs, or cannot be told")),
               differences(exchange, say));
  page.section(say(OHMWRIGHT_TEXT("Before you touch it")), caution_lines_of_work(exchange.part, say));
  page.section(
      say(OHMWRIGHT_TEXT("The old one out, the new one in")),
      {say(OHMWRIGHT_TEXT("Photograph wires, clips and foil before anything comes off.")),
       say(OHMWRIGHT_TEXT("Put foil tape and clips back where they were, the sensor or thermostat tight on its tube.")),
       say(OHMWRIGHT_TEXT(
           "Splices: sealed, of the wire's gauge, clear of heater and fan, a loop so that water drips off.")),
       say(OHMWRIGHT_TEXT("All earth leads and covers back; nothing bridged."))});
  if (!with_commands) return page.take();
  std::vector<std::string> then = proof_before_energising(exchange.part, say);
  then.push_back(say(OHMWRIGHT_TEXT("Read the new part: ohmwright job read {part} VALUE, then ohmwright job verify"),
                     {{"part", exchange.part.part}}));
  if (opens_once_and_for_good(exchange.part.kind->descriptor()))
    then.push_back(
        say(OHMWRIGHT_TEXT("What overheated the old one? Found, say so: ohmwright job sign --looked CAUSE=found, "
                           "or replace what did; else the new one opens, too.")));
  page.section(say(OHMWRIGHT_TEXT("Then")), then);
  return page.take();
}

}  // namespace

namespace {

int replace_and_tell(const Arguments& arguments, Environment& environment, bool with_commands) {
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  if (arguments.operands.empty())
    throw InputError(
        "missing: the part that is replaced; such as: ohmwright job replace heater --new heater-450w-120v");
  if (arguments.has("--mended")) return mend_and_tell(job, arguments, environment, with_commands);
  const Exchange exchange = typed_exchange(job, arguments, environment);
  const Sentences say{UnitPreferences{}};
  refuse_what_is_no_equivalent(exchange, arguments, say);
  const std::string happened = time_of_work(arguments);
  job::ContentWriter content;
  add_work(exchange.part, place_that_spoke_against(call_at(job, happened), exchange.part.part, arguments, environment),
           content);
  if (!exchange.in_file.empty()) content.json("new_file", exchange.in_file);
  write_and_end_unsafe_wait(job,
                            {{job::EntryForm::replaced,
                              content.text("old", exchange.out.name)
                                  .text("old_title", exchange.out.name.empty() ? std::string() : exchange.out.title)
                                  .text("new", exchange.in.name.empty() ? std::string() : arguments.value("--new"))
                                  .text("new_title", exchange.in.name.empty() ? std::string() : exchange.in.title)
                                  .text("equivalence", name_of(exchange.answer()))
                                  .texts("differences", differences(exchange, say))
                                  .text("because", arguments.value("--because"))
                                  .flag("opens_for_good", opens_once_and_for_good(exchange.part.kind->descriptor()))
                                  .content(),
                              happened}},
                            environment);
  warn_of_early_time(job, happened, environment);
  environment.out << page_of(exchange, say, environment.page, with_commands);
  return exit_done;
}

}  // namespace

int replace_in_job(const Arguments& arguments, Environment& environment) {
  return replace_and_tell(arguments, environment, true);
}

int replace_in_talk(const Arguments& arguments, Environment& environment) {
  return replace_and_tell(arguments, environment, false);
}

}  // namespace ohmwright::cli
