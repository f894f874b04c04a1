#include <ohmwright/appliance/name_finder.hpp>
#include <ohmwright/appliance/places_reader.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

/// Reads one part; a kind that is not there leaves it without one, and it is then left out of what follows.
class PartReader {
 public:
  PartReader(const ValueNode& entry, const Registry& registry, Appliance& appliance, std::vector<Problem>& problems)
      : entry_(entry), registry_(registry), appliance_(appliance), problems_(problems) {}

  std::optional<PlacedPart> read() {
    part_.id = text_of(entry_, "id");
    part_.title = text_of(entry_, "title");
    part_.weight = number_of(entry_, "weight").value_or(1.0);
    part_.minutes_to_replace = minutes_in(entry_, "minutes_to_replace", part_.minutes_to_replace, problems_);
    part_.behind = find_all_named(entry_, "behind", "cover", appliance_.covers, problems_);
    part_.zone = find_named(entry_.find("zone"), "zone", appliance_.zones, problems_);
    if (!find_kind()) return std::nullopt;
    connect();
    read_states();
    read_fault_weights();
    make_part();
    return part_.part == nullptr ? std::nullopt : std::optional(std::move(part_));
  }

 private:
  bool find_kind() {
    const ValueNode* kind = entry_.find("kind");
    if (kind == nullptr || kind->text() == nullptr) return false;
    try {
      part_.kind = &registry_.kind(*kind->text());
      return true;
    } catch (const InputError& error) {
      problems_.push_back(kind->problem(error.what()));
    }
    return false;
  }

  void connect() {
    const Descriptor& descriptor = part_.kind->descriptor();
    part_.nodes.assign(descriptor.terminals.size(), std::nullopt);
    const ValueNode* connections = entry_.find("connections");
    if (connections == nullptr || connections->members() == nullptr) return;
    for (const auto& [terminal, node] : *connections->members()) {
      const auto found = std::find(descriptor.terminals.begin(), descriptor.terminals.end(), terminal);
      if (found == descriptor.terminals.end()) {
        const std::vector<std::string> known(descriptor.terminals.begin(), descriptor.terminals.end());
        problems_.push_back(node.problem(with_article(descriptor.id) + " has no terminal " +
                                         ohmwright::quoted(terminal) + suggestion(terminal, known)));
      } else if (node.text() != nullptr) {
        part_.nodes[static_cast<std::size_t>(found - descriptor.terminals.begin())] =
            node_named(appliance_, *node.text());
      }
    }
  }

  void read_states() {
    const ValueNode* states = entry_.find("states");
    if (states == nullptr || states->members() == nullptr) return;
    for (const auto& [name, value] : *states->members())
      if (const auto state = state_named(name, value, part_, problems_)) part_.states.push_back(*state);
  }

  void read_fault_weights() {
    const Descriptor& descriptor = part_.kind->descriptor();
    const ValueNode* weights = entry_.find("fault_weights");
    if (weights == nullptr || weights->members() == nullptr) return;
    part_.fault_weights.assign(descriptor.fault_modes.size(), 1.0);
    for (const auto& [fault, weight] : *weights->members()) {
      const std::uint16_t mode = index_of(descriptor.fault_modes, fault);
      if (mode == not_found)
        problems_.push_back(weight.problem(with_article(descriptor.id) + " has no fault " + ohmwright::quoted(fault) +
                                           suggestion(fault, ids_of(descriptor.fault_modes))));
      else if (weight.number() != nullptr)
        part_.fault_weights[mode] = *weight.number();
    }
  }

  void make_part() {
    const ValueNode* ratings = entry_.find("ratings");
    if (ratings != nullptr && ratings->text() != nullptr) return make_of_class(*ratings);
    const bool is_object = ratings != nullptr && ratings->members() != nullptr;
    if (is_object) {
      std::vector<Problem> of_schema = ratings_schema_of(part_.kind->descriptor()).problems(*ratings);
      if (!of_schema.empty()) {
        std::move(of_schema.begin(), of_schema.end(), std::back_inserter(problems_));
        return;
      }
    }
    part_.part = part_.kind->make_part(is_object ? ratings : nullptr, problems_);
  }

  void make_of_class(const ValueNode& name) {
    try {
      const std::string path = named_file(part_.kind->ratings_folder().string(), *name.text(),
                                          "ratings of the kind " + std::string(part_.kind->descriptor().id));
      const RatingsDocument ratings = read_ratings_file(path, part_.kind->descriptor());
      std::vector<Problem> of_kind;
      part_.part = part_.kind->make_part(ratings.ratings, of_kind);
      ratings.refuse_if_any(std::move(of_kind));
      part_.ratings = ratings.name;
      part_.plate = ratings.title;
    } catch (const InputError& error) {  // a broken shipped file is refused as itself
      problems_.push_back(name.problem(error.what()));
    }
  }

  const ValueNode& entry_;
  const Registry& registry_;
  Appliance& appliance_;
  std::vector<Problem>& problems_;
  PlacedPart part_;
};

}  // namespace

std::optional<StateValue> state_named(const std::string& state, const ValueNode& value, const PlacedPart& part,
                                      std::vector<Problem>& problems) {
  const Descriptor& descriptor = part.kind->descriptor();
  const std::uint16_t index = index_of(descriptor.states, state);
  if (index == not_found) {
    problems.push_back(value.problem(with_article(descriptor.id) + " has no state " + ohmwright::quoted(state) +
                                     suggestion(state, ids_of(descriptor.states))));
    return std::nullopt;
  }
  if (value.text() == nullptr) return std::nullopt;
  const std::uint16_t of_value = index_of(descriptor.states[index].values, *value.text());
  if (of_value != not_found) return StateValue{index, of_value};
  problems.push_back(value.problem(state + " cannot be " + ohmwright::quoted(*value.text()) +
                                   suggestion(*value.text(), ids_of(descriptor.states[index].values))));
  return std::nullopt;
}

void read_parts(const ValueNode& root, const Registry& registry, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "parts")) {
    if (std::optional<PlacedPart> part = PartReader(entry, registry, appliance, problems).read()) {
      for (const PlacedPart& other : appliance.parts)
        if (other.id == part->id)
          problems.push_back(entry.problem("the name " + ohmwright::quoted(part->id) + " stands twice"));
      appliance.parts.push_back(*std::move(part));
    }
  }
}

}  // namespace ohmwright
