#include <algorithm>

#include <ohmwright/appliance/found_on_site.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

ValueNode made(ValueNode::Value value) { return {std::move(value), "", 0}; }
ValueNode text(std::string words) { return made(std::move(words)); }

/// Ids of covers as a list.
ValueNode covers_of(const Appliance& appliance, const std::vector<std::size_t>& covers) {
  ValueNode::Array ids;
  for (const std::size_t cover : covers) ids.push_back(text(appliance.covers[cover].id));
  return made(std::move(ids));
}

/// The file with a row more in one of its lists.
ValueNode with_row(const ValueNode& file, const std::string& section, ValueNode row) {
  ValueNode::Members members = *file.members();
  const auto found =
      std::find_if(members.begin(), members.end(), [&](const auto& member) { return member.first == section; });
  ValueNode::Array rows = found == members.end() ? ValueNode::Array{} : *found->second.array();
  rows.push_back(std::move(row));
  if (found == members.end())
    members.emplace_back(section, made(std::move(rows)));
  else
    found->second = made(std::move(rows));
  return made(std::move(members));
}

/// The file with that terminal of a part at another node.
ValueNode with_connection(const ValueNode& file, std::size_t part, const std::string& terminal,
                          const std::string& node) {
  ValueNode::Members members = *file.members();
  for (auto& [name, section] : members) {
    if (name != "parts") continue;
    ValueNode::Array parts = *section.array();
    ValueNode::Members of_part = *parts[part].members();
    for (auto& [field, value] : of_part) {
      if (field != "connections") continue;
      ValueNode::Members connections = *value.members();
      for (auto& [from, to] : connections)
        if (from == terminal) to = text(node);
      value = made(std::move(connections));
    }
    parts[part] = made(std::move(of_part));
    section = made(std::move(parts));
  }
  return made(std::move(members));
}

/// `wanted`, or with the first number behind it that nobody has.
template <class IsTaken>
std::string free_name(const std::string& wanted, IsTaken is_taken) {
  std::string name = wanted;
  for (int number = 2; is_taken(name); ++number) name = wanted + "-" + std::to_string(number);
  return name;
}

/// The part as a row of the file.
ValueNode::Members row_of(const FoundPart& part) {
  const Descriptor& descriptor = part.kind->descriptor();
  ValueNode::Members connections;
  for (std::size_t i = 0; i < part.nodes.size(); ++i)
    connections.emplace_back(std::string(descriptor.terminals[i]), text(part.nodes[i]));
  ValueNode::Members row;
  row.emplace_back("id", text(part.id));
  row.emplace_back("title", text(part.title));
  row.emplace_back("kind", text(std::string(descriptor.id)));
  if (!part.ratings.empty()) row.emplace_back("ratings", text(part.ratings));
  row.emplace_back("connections", made(std::move(connections)));
  return row;
}

/// Its frame at the protective earth, where it has the one and the appliance the other: a joint that leaks is found.
void ground_frame(ValueNode::Members& row, const Appliance& appliance, const Descriptor& descriptor) {
  const auto& terminals = descriptor.terminals;
  if (!appliance.supply.earth || std::find(terminals.begin(), terminals.end(), "frame") == terminals.end()) return;
  for (auto& [name, value] : row) {
    if (name != "connections") continue;
    ValueNode::Members connections = *value.members();
    connections.emplace_back("frame", text(appliance.nodes[*appliance.supply.earth]));
    value = made(std::move(connections));
  }
}

/// Ohms between its first two terminals, the first lifted.
ValueNode own_test_point(const FoundPart& part, const ValueNode& behind) {
  const std::vector<std::string_view>& terminals = part.kind->descriptor().terminals;
  const std::string from = part.id + "." + std::string(terminals[0]);
  ValueNode::Members point;
  point.emplace_back("id", text(part.id + "-alone"));
  point.emplace_back("title", text(part.title + ", a lead off"));
  point.emplace_back("measure", text("ohms"));
  point.emplace_back("from", text(from));
  point.emplace_back("to", text(part.id + "." + std::string(terminals[1])));
  point.emplace_back("lifted", made(ValueNode::Array{text(from)}));
  if (!behind.array()->empty()) point.emplace_back("behind", behind);
  point.emplace_back("minutes", text("2 min"));
  return made(std::move(point));
}

}  // namespace

ValueNode with_splice(const ValueNode& file, const Appliance& appliance, const PartTerminal& at, const LoadedKind& kind,
                      const std::string& ratings) {
  const PlacedPart& part = appliance.parts[at.part];
  const std::string terminal(part.kind->descriptor().terminals[at.terminal]);
  const std::optional<std::size_t> node = part.nodes[at.terminal];
  if (!node) throw InputError("nothing is connected to " + part.id + "." + terminal + ", so no splice can be there");
  const std::string id = free_name("splice", [&](const std::string& name) {
    return std::any_of(appliance.parts.begin(), appliance.parts.end(),
                       [&](const PlacedPart& other) { return other.id == name; });
  });
  const std::string between = free_name(appliance.nodes[*node] + "-" + part.id, [&](const std::string& name) {
    return std::find(appliance.nodes.begin(), appliance.nodes.end(), name) != appliance.nodes.end();
  });
  const ValueNode behind = covers_of(appliance, part.behind);
  const FoundPart splice{id, "Splice at " + part.title, &kind, ratings, {appliance.nodes[*node], between}};
  ValueNode::Members row = row_of(splice);
  ground_frame(row, appliance, kind.descriptor());
  if (part.zone) row.emplace_back("zone", text(appliance.zones[*part.zone].id));
  row.emplace_back("minutes_to_replace", text("10 min"));
  if (!part.behind.empty()) row.emplace_back("behind", behind);
  const ValueNode moved = with_connection(file, at.part, terminal, between);
  return with_row(with_row(moved, "parts", made(std::move(row))), "test_points", own_test_point(splice, behind));
}

ValueNode with_part(const ValueNode& file, const FoundPart& part) {
  const Descriptor& descriptor = part.kind->descriptor();
  if (part.nodes.size() < 2 || part.nodes.size() > descriptor.terminals.size())
    throw InputError(with_article(descriptor.id) + " has " + std::to_string(descriptor.terminals.size()) +
                     " terminals; name the nodes of two or more of them, such as L,N");
  return with_row(with_row(file, "parts", made(row_of(part))), "test_points",
                  own_test_point(part, made(ValueNode::Array{})));
}

}  // namespace ohmwright
