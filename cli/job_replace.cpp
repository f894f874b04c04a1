#include <algorithm>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/comparison_report.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>

#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_appliance.hpp"
#include "job_book_file.hpp"
#include "job_reading_judged.hpp"
#include "job_safety.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// The step of work, as the data of cautions name it.
constexpr std::string_view replacing = "replace-a-part";

/// What comes out and what goes in, and how they compare.
struct Exchange {
  const LoadedKind* kind = nullptr;
  std::string part;  ///< id in the appliance; empty: it has none
  std::string title;
  RatedPart out;
  RatedPart original;  ///< what the appliance was made for, whatever went in since
  RatedPart in;
  bool new_is_known = false;
  bool has_earth = true;
  bool asks_circuit_insulation = false;
  std::vector<EquivalenceFinding> findings;

  Outcome answer() const { return findings.empty() ? Outcome::undecided : equivalence(findings); }
};

bool tells_insulation(const Descriptor& descriptor) {
  return std::any_of(descriptor.rules.begin(), descriptor.rules.end(),
                     [](const RuleDescriptor& rule) { return tells_safe_to_energise(rule.id); });
}

bool has_insulation_to_read(const Appliance& appliance) {
  return std::any_of(appliance.parts.begin(), appliance.parts.end(),
                     [](const PlacedPart& placed) { return tells_insulation(placed.kind->descriptor()); });
}

/// The kind of a part that the appliance does not have. Who slipped in a name is told those of the appliance's parts.
const LoadedKind& kind_of_no_part(const Appliance* appliance, const Arguments& arguments,
                                  const Environment& environment) {
  try {
    return kind_typed(environment, arguments.operands);
  } catch (const InputError&) {
    if (appliance == nullptr) throw;
    std::vector<std::string> parts;
    for (const PlacedPart& placed : appliance->parts) parts.push_back(placed.id);
    const std::string& name = arguments.operands.front();
    throw InputError("the appliance has no part " + ohmwright::quoted(name) + did_you_mean(name, parts) +
                     "; it has: " + listed(parts));
  }
}

Exchange typed_exchange(const JobAtHand& job, const Arguments& arguments, const Environment& environment) {
  if (arguments.operands.empty())
    throw InputError(
        "missing: the part that is replaced; such as: ohmwright job replace heater --new heater-450w-120v");
  Exchange exchange;
  const std::string& name = arguments.operands.front();
  std::optional<Appliance> appliance;
  if (job.call.has_appliance()) appliance.emplace(appliance_of(job.call, environment));
  if (appliance) exchange.has_earth = appliance->supply.earth.has_value();
  exchange.part = name;
  const std::size_t not_placed = appliance ? appliance->parts.size() : 0;
  const std::size_t placed = appliance ? part_named(*appliance, name).value_or(not_placed) : not_placed;
  if (placed != not_placed) {
    exchange.kind = appliance->parts[placed].kind;
    exchange.title = appliance->parts[placed].title;
    exchange.out = placed_part(*appliance, placed, job.call);
    const PlacedPart& as_made = appliance->parts[placed];
    exchange.original = {as_made.part, as_made.ratings, as_made.title};
  } else {
    exchange.kind = &kind_of_no_part(appliance ? &*appliance : nullptr, arguments, environment);
    exchange.part = std::string(exchange.kind->descriptor().id);
    exchange.title = std::string(exchange.kind->descriptor().title);
  }
  if (arguments.has("--old") || placed == not_placed) {
    exchange.out = rated_part(*exchange.kind, arguments.value("--old"));
    exchange.original = exchange.out;
  }
  exchange.asks_circuit_insulation =
      !tells_insulation(exchange.kind->descriptor()) && (!appliance || has_insulation_to_read(*appliance));
  if (!arguments.has("--new"))
    throw InputError("job replace needs --new NAME|FILE, the ratings of the part that goes in (ohmwright ratings " +
                     std::string(exchange.kind->descriptor().id) + "), or --new unknown");
  exchange.new_is_known = arguments.value("--new") != "unknown";
  exchange.in = rated_part(*exchange.kind, exchange.new_is_known ? arguments.value("--new") : std::string());
  if (exchange.new_is_known && exchange.original.part != nullptr)
    exchange.findings = exchange.kind->call("comparing two parts", [&] {
      return exchange.kind->kind().compare(*exchange.original.part, *exchange.in.part, ComparisonContext{});
    });
  return exchange;
}

/// What speaks against it, or cannot be told.
std::vector<std::string> differences(const Exchange& exchange, const Sentences& say) {
  std::vector<std::string> lines;
  for (const EquivalenceFinding& finding : exchange.findings)
    if (finding.outcome == Outcome::out_of_limits || finding.outcome == Outcome::undecided)
      lines.push_back(with_plain_spaces(
          say.in_domain(exchange.kind->descriptor().text_domain, finding.text.english, view(finding.arguments))));
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
  throw InputError((exchange.answer() == Outcome::out_of_limits
                        ? "this part is no equivalent of " + printable(exchange.title)
                        : "whether this part is an equivalent of " + printable(exchange.title) + " cannot be told") +
                   ": " + printable(why) + " Take another, or say why it goes in all the same: --because TEXT");
}

/// What can hurt in putting in any part, and what the procedures of this kind of part say beside it.
std::vector<std::string> cautions_of(const Exchange& exchange) {
  const std::vector<std::string_view> ids = caution_ids_of_work(replacing, exchange.kind->descriptor());
  return {ids.begin(), ids.end()};
}

/// Each in a few words, on a line of its own: a dozen of them in one paragraph are read by nobody.
std::vector<std::string> caution_lines_of(const Exchange& exchange, const Sentences& say) {
  std::vector<std::string> brief;
  for (const std::string& id : cautions_of(exchange)) {
    const CautionText text = caution_text(exchange.kind->descriptor(), id);
    brief.push_back(say.in_domain(text.domain, text.brief));
  }
  return brief;
}

std::string page_of(const Exchange& exchange, const Sentences& say, const PageStyle& style, bool with_commands) {
  PageLayout page(style);
  const std::string_view answer =
      exchange.answer() == Outcome::within_limits ? OHMWRIGHT_TEXT("{part}: the new part can stand in for the old one.")
      : exchange.answer() == Outcome::out_of_limits
          ? OHMWRIGHT_TEXT("{part}: the new part is no equivalent, and goes in for a reason.")
          : OHMWRIGHT_TEXT("{part}: whether the new part is equivalent cannot be told.");
  page.block(say(answer, {{"part", exchange.title}}));
  page.section(say(OHMWRIGHT_TEXT("What differs, or cannot be told")), differences(exchange, say));
  page.section(say(OHMWRIGHT_TEXT("Before you touch it")), caution_lines_of(exchange, say));
  page.section(
      say(OHMWRIGHT_TEXT("The old one out, the new one in")),
      {say(OHMWRIGHT_TEXT("Photograph wires, clips and foil before anything comes off.")),
       say(OHMWRIGHT_TEXT("Put foil tape and clips back where they were, the sensor or thermostat tight on its tube.")),
       say(OHMWRIGHT_TEXT(
           "Splices: sealed, of the wire's gauge, clear of heater and fan, a loop so that water drips off.")),
       say(OHMWRIGHT_TEXT("All earth leads and covers back; nothing bridged."))});
  if (!with_commands) return page.take();
  std::vector<std::string> then;
  if (tells_insulation(exchange.kind->descriptor()))
    then.push_back(say(OHMWRIGHT_TEXT("Before it is energised: ohmwright job read {part} insulation=200M --test 500V"),
                       {{"part", exchange.part}}));
  if (exchange.asks_circuit_insulation)
    then.push_back(
        say(OHMWRIGHT_TEXT("Before it is energised, the insulation of a part that is wired to it: ohmwright "
                           "job read PART insulation=200M --test 500V")));
  if (exchange.has_earth)
    then.push_back(
        say(OHMWRIGHT_TEXT("And the earth bond: ohmwright job verify --earth-bond 0.12ohm --test-current 10A")));
  then.push_back(say(OHMWRIGHT_TEXT("Read the new part: ohmwright job read {part} VALUE, then ohmwright job verify"),
                     {{"part", exchange.part}}));
  page.section(say(OHMWRIGHT_TEXT("Then")), then);
  return page.take();
}

}  // namespace

namespace {

int replace_and_tell(const Arguments& arguments, Environment& environment, bool with_commands) {
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  const Exchange exchange = typed_exchange(job, arguments, environment);
  const Sentences say{UnitPreferences{}};
  refuse_what_is_no_equivalent(exchange, arguments, say);
  const std::string happened = time_happened(arguments);
  const bool energised = tells_insulation(exchange.kind->descriptor());
  job.write({{job::EntryForm::replaced,
              job::ContentWriter()
                  .text("part", exchange.part)
                  .text("title", exchange.title)
                  .text("kind", exchange.kind->descriptor().id)
                  .text("old", exchange.out.name)
                  .text("old_title", exchange.out.name.empty() ? std::string() : exchange.out.title)
                  .text("new", exchange.in.name.empty() ? std::string() : arguments.value("--new"))
                  .text("new_title", exchange.in.name.empty() ? std::string() : exchange.in.title)
                  .text("equivalence", name_of(exchange.answer()))
                  .texts("differences", differences(exchange, say))
                  .text("because", arguments.value("--because"))
                  .flag("tells_insulation", energised)
                  .flag("asks_circuit_insulation", exchange.asks_circuit_insulation)
                  .flag("has_earth", exchange.has_earth)
                  .texts("cautions", cautions_of(exchange))
                  .content(),
              happened}});
  say_which(job, environment);
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
