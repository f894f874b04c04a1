#include "job/worked_part.hpp"

#include <algorithm>
#include <set>
#include <string_view>

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>

#include "job/appliance.hpp"
#include "job/low_voltage.hpp"
#include "job/reading_entry.hpp"
#include "job/reading_judged.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// The step of work, as the data of cautions name it.
constexpr std::string_view replacing = "replace-a-part";

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

/// All roles of what moves air or water begin so.
constexpr std::string_view moves = "moves-";

/// The roles of the parts that may have overheated one of that kind, as its faults say; of a kind whose faults say
/// none: what heats, and what should end that.
std::set<std::string_view> roles_upstream(const Descriptor& descriptor) {
  std::set<std::string_view> roles;
  for (const FaultModeDescriptor& mode : descriptor.fault_modes)
    roles.insert(mode.looks_upstream.begin(), mode.looks_upstream.end());
  if (roles.empty()) roles = {role::heats_coil, role::ends_defrost, role::times_defrost, role::limits_heat};
  return roles;
}

/// A cause that says so, or one by which, as the file's consequences have it, something that limits heat opens.
bool may_overheat(const Appliance& appliance, std::size_t cause) {
  return appliance.outside_causes[cause].overheats ||
         std::any_of(appliance.consequences.begin(), appliance.consequences.end(), [&](const Consequence& row) {
           return row.outside_cause == cause &&
                  plays(appliance.parts[row.effect.part].kind->descriptor().roles, role::limits_heat);
         });
}

job::ContentWriter overheating_of(const Appliance& appliance, std::size_t part) {
  const std::set<std::string_view> roles = roles_upstream(appliance.parts[part].kind->descriptor());
  std::vector<std::string> parts;
  std::vector<std::string> movers;
  std::vector<std::string> causes;
  for (std::size_t other = 0; other < appliance.parts.size(); ++other) {
    const bool is_cause = std::any_of(
        appliance.consequences.begin(), appliance.consequences.end(),
        [&](const Consequence& row) { return row.cause && row.cause->part == other && row.effect.part == part; });
    const auto& played = appliance.parts[other].kind->descriptor().roles;
    const bool moves_it =
        std::any_of(played.begin(), played.end(), [](std::string_view role) { return role.starts_with(moves); });
    const bool is_upstream =
        std::any_of(played.begin(), played.end(), [&](std::string_view role) { return roles.count(role) > 0; });
    if (other != part && (is_cause || is_upstream)) (moves_it ? movers : parts).push_back(appliance.parts[other].id);
  }
  for (std::size_t cause = 0; cause < appliance.outside_causes.size(); ++cause)
    if (may_overheat(appliance, cause)) causes.push_back(appliance.outside_causes[cause].id);
  job::ContentWriter all;
  all.texts("parts", parts).texts("movers", movers).texts("causes", causes);
  return all;
}

/// Whether it trips and closes again, and what may have overheated it. Nothing of a part that no heat opens, or of a
/// call without an appliance.
void add_overheating(const WorkedPart& part, job::ContentWriter& content) {
  const Descriptor& descriptor = part.kind->descriptor();
  const bool says_upstream = std::any_of(descriptor.fault_modes.begin(), descriptor.fault_modes.end(),
                                         [](const FaultModeDescriptor& mode) { return !mode.looks_upstream.empty(); });
  const bool limits = plays(descriptor.roles, role::limits_heat);
  const bool opens_each_time = plays(descriptor.roles, role::ends_defrost);  // that it was open says of no fault
  content.flag("trips_by_heat", limits && says_upstream && !opens_each_time && !opens_once_and_for_good(descriptor));
  if (part.placed && (limits || may_open_for_good(descriptor)))
    content.json("overheating", overheating_of(*part.appliance, *part.placed).content());
}

}  // namespace

void add_work(const WorkedPart& part, const std::string& read_through, job::ContentWriter& content) {
  add_overheating(part, content);
  content.text("part", part.part)
      .text("title", part.title)
      .text("kind", part.kind->descriptor().id)
      .flag("tells_insulation", part.tells_insulation)
      .flag("asks_circuit_insulation", part.asks_circuit_insulation)
      .flag("no_test_volts", !part.bears_test_volts)
      .flag("has_earth", part.has_earth)
      .text("read_through", read_through)
      .texts("cautions", cautions_of_work(part));
}

bool tells_insulation(const Descriptor& descriptor) {
  return std::any_of(descriptor.rules.begin(), descriptor.rules.end(),
                     [](const RuleDescriptor& rule) { return tells_safe_to_energise(rule.id); });
}

WorkedPart worked_part(const JobAtHand& job, const Arguments& arguments, const Environment& environment) {
  WorkedPart worked;
  worked.part = arguments.operands.front();
  if (job.call.has_appliance()) worked.appliance.emplace(appliance_of(job.call, environment));
  if (worked.appliance) worked.has_earth = worked.appliance->supply.earth.has_value();
  if (worked.appliance) worked.placed = part_named(*worked.appliance, worked.part);
  if (worked.placed) {
    worked.kind = worked.appliance->parts[*worked.placed].kind;
    worked.title = worked.appliance->parts[*worked.placed].title;
  } else {
    worked.kind = &kind_of_no_part(worked.appliance ? &*worked.appliance : nullptr, arguments, environment);
    worked.part = std::string(worked.kind->descriptor().id);
    worked.title = std::string(worked.kind->descriptor().title);
  }
  if (worked.placed) {
    const PlacedPart& placed = worked.appliance->parts[*worked.placed];
    worked.bears_test_volts =
        bears_test_volts(*worked.kind, {placed.part, placed.ratings, placed.title}, {}, environment);
  }
  const bool is_wire = worked.placed && is_wire_at_low_voltage(*worked.appliance, *worked.placed, environment);
  worked.tells_insulation = tells_insulation(worked.kind->descriptor()) && !is_wire;
  worked.asks_circuit_insulation =
      !worked.tells_insulation && (!worked.appliance || !parts_with_insulation(*worked.appliance, environment).empty());
  return worked;
}

job::SafetyAsked safety_asked(const job::ServiceCall& call, const Environment& environment) {
  if (!call.has_appliance()) return {};
  const Appliance appliance = appliance_of(call, environment);
  return {!parts_with_insulation(appliance, environment).empty(), appliance.supply.earth.has_value()};
}

std::vector<std::string> cautions_of_work(const WorkedPart& part) {
  const std::vector<std::string_view> ids = caution_ids_of_work(replacing, part.kind->descriptor());
  return {ids.begin(), ids.end()};
}

std::vector<std::string> caution_lines_of_work(const WorkedPart& part, const Sentences& say) {
  std::vector<std::string> brief;
  for (const std::string& id : cautions_of_work(part)) {
    const CautionText text = caution_text(part.kind->descriptor(), id);
    brief.push_back(say.in_domain(text.domain, text.brief));
  }
  return brief;
}

bool bears_test_volts(const LoadedKind& kind, const RatedPart& part, const Arguments& arguments,
                      const Environment& environment) {
  if (!tells_insulation(kind.descriptor())) return true;
  const auto stated = [](Dimension dimension, double value_in_si) {
    return StatedValue{AnyQuantity(dimension, value_in_si), {}, Unit::si(dimension)};
  };
  Reading tested{.measurand = "insulation", .observed = stated(Dimension::resistance, 200e6)};
  tested.conditions.push_back({"test_voltage", stated(Dimension::voltage, 500.0)});
  tested.connection = Connection::lead_off;
  tested.supply = Supply::proved_dead;
  const PartCheck check = checked_part(kind, part, {tested}, UnitPreferences{}, arguments, environment);
  const auto& findings = check.verdict().findings;
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return tells_safe_to_energise(kind.descriptor().rules[finding.rule].id) &&
           finding.outcome == Outcome::within_limits;
  });
}

std::vector<std::string> proof_before_energising(const WorkedPart& part, const Sentences& say) {
  std::vector<std::string> then;
  if (part.tells_insulation)
    then.push_back(
        say(part.bears_test_volts
                ? OHMWRIGHT_TEXT("Before it is energised: ohmwright job read {part} insulation=200M --test 500V")
                : OHMWRIGHT_TEXT("Before it is energised, with an ohmmeter and no 500 V, which would destroy its "
                                 "electronics: ohmwright job read {part} insulation=OL --proved-dead --lead-off"),
            {{"part", part.part}}));
  if (part.asks_circuit_insulation)
    then.push_back(
        say(OHMWRIGHT_TEXT("Before it is energised, the insulation of a part at the mains, of no sensor's circuit: "
                           "ohmwright job read PART insulation=200M --test 500V")));
  if (part.has_earth)
    then.push_back(
        say(OHMWRIGHT_TEXT("And the earth bond: ohmwright job verify --earth-bond 0.12ohm --test-current 10A")));
  return then;
}

}  // namespace ohmwright::cli
