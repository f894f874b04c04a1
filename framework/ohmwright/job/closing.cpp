#include <algorithm>
#include <map>

#include <ohmwright/job/closing.hpp>

namespace ohmwright::job {

namespace {

const Check* last_earth_bond(const ServiceCall& call) {
  const Check* last = nullptr;
  for (const Check& check : call.checks)
    if (check.what == "earth-bond") last = &check;
  return last;
}

/// The last finding of each rule about each part, by what people call the part.
struct LastFinding {
  Outcome outcome = Outcome::undecided;
  std::size_t order = 0;
};

std::map<std::string, LastFinding> last_findings(const ServiceCall& call) {
  std::map<std::string, LastFinding> last;
  for (const MeasuredValue& reading : call.readings)
    for (const SafetyFinding& finding : reading.safety)
      last[reading.part.empty() ? reading.title : reading.part] = {finding.outcome, reading.order};
  return last;
}

std::string title_of(const ServiceCall& call, const std::string& subject) {
  for (const MeasuredValue& reading : call.readings)
    if (reading.part == subject && !reading.title.empty()) return reading.title;
  return subject;
}

void add_insulation(const ServiceCall& call, std::vector<Obstacle>& all) {
  const std::map<std::string, LastFinding> last = last_findings(call);
  std::map<std::string, std::size_t> replaced_at;
  std::map<std::string, std::string> titles;
  for (const ReplacedPart& part : call.replaced) {
    if (!part.tells_insulation) continue;
    replaced_at[part.part] = part.order;
    titles[part.part] = part.title;
  }
  for (const auto& [subject, finding] : last) {
    const auto since = replaced_at.find(subject);
    if (since != replaced_at.end() && since->second > finding.order) continue;  // the old part's: told of below
    if (finding.outcome != Outcome::within_limits)
      all.push_back({Obstacle::Form::insulation_not_within, title_of(call, subject)});
  }
  for (const auto& [part, order] : replaced_at) {
    const auto read = last.find(part);
    if (read == last.end() || read->second.order < order)
      all.push_back({Obstacle::Form::insulation_unread, titles[part]});
  }
  const auto tingles = call.phone.find("tingles");
  if (tingles != call.phone.end() && tingles->second == "yes" && last.empty())
    all.push_back({Obstacle::Form::nothing_insulated_read, {}});
}

void add_earth_bond(const ServiceCall& call, std::vector<Obstacle>& all) {
  const Check* bond = last_earth_bond(call);
  std::size_t needed_since = 0;
  bool needed = false;
  for (const ReplacedPart& part : call.replaced) {
    if (!part.tells_insulation || !part.has_earth) continue;
    needed = true;
    needed_since = std::max(needed_since, part.order);
  }
  if (bond != nullptr && bond->outcome != Outcome::within_limits)
    all.push_back({Obstacle::Form::earth_bond_not_within, {}});
  else if (needed && (bond == nullptr || bond->order < needed_since))
    all.push_back({Obstacle::Form::earth_bond_unread, {}});
}

}  // namespace

std::vector<Obstacle> obstacles(const ServiceCall& call) {
  std::vector<Obstacle> all;
  add_insulation(call, all);
  add_earth_bond(call, all);
  return all;
}

}  // namespace ohmwright::job
