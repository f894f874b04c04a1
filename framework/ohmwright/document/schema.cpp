#include <algorithm>
#include <optional>
#include <tuple>

#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/schema_alternatives.hpp>
#include <ohmwright/document/schema_engine.hpp>
#include <ohmwright/document/schema_lookup.hpp>
#include <ohmwright/document/schema_messages.hpp>
#include <ohmwright/document/wording.hpp>

namespace ohmwright {

namespace {

using nlohmann::json;

/// Where a report points: the value and the parts of the schema that speak of it.
struct Place {
  const ValueNode* node = nullptr;
  SchemaNodes parts;
};

Place follow(const ValueNode& node, const json& root, const json& schema, const std::vector<std::string>& steps) {
  Place place{&node, parts_of(root, schema, &node)};
  for (const std::string& step : steps) {
    const ValueNode::Array* list = place.node->array();
    const ValueNode* next = list != nullptr ? &list->at(std::stoul(step)) : place.node->find(step);
    if (next == nullptr) return place;
    place.parts = step_into(root, place.parts, step, list != nullptr, next);
    place.node = next;
  }
  return place;
}

bool lies_within(const std::vector<std::string>& steps, const std::vector<std::string>& outer) {
  return steps.size() >= outer.size() && std::equal(outer.begin(), outer.end(), steps.begin());
}

void append(std::vector<Problem>& all, std::vector<Problem> more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

std::vector<Problem> all_problems(const ValueNode& node, const json& schema, const SchemaEngine& engine);

std::vector<Problem> problems_of_part(const ValueNode& node, const json& root, const json& part) {
  const json schema = on_its_own(root, part);
  return all_problems(node, schema, SchemaEngine(schema));
}

/// What is wrong with a value that fits none of several alternatives: what the rest of its schema says, and what the
/// alternative that was meant says.
std::vector<Problem> problems_with_alternatives(const Place& place, const json& root) {
  const json value = to_json(*place.node);
  std::vector<Problem> problems;
  for (const json* part : place.parts) {
    json rest = *part;
    for (const char* keyword : {"oneOf", "anyOf"}) {
      const auto alternatives = part->find(keyword);
      if (alternatives == part->end()) continue;
      rest.erase(keyword);
      const std::vector<Violation> found = SchemaEngine(on_its_own(root, json{{keyword, *alternatives}})).check(value);
      if (found.empty()) continue;
      if (std::any_of(found.begin(), found.end(),
                      [](const Violation& v) { return v.steps.empty() && says_more_than_one(v.description); })) {
        problems.push_back(more_than_one_fits(root, *alternatives, *place.node));
        continue;
      }
      const auto meant = meant_alternative(root, *alternatives, *place.node);
      if (const Problem* problem = std::get_if<Problem>(&meant))
        problems.push_back(*problem);
      else
        append(problems, problems_of_part(*place.node, root, *std::get<const json*>(meant)));
    }
    if (rest.size() != part->size()) append(problems, problems_of_part(*place.node, root, rest));
  }
  return problems;
}

std::vector<Problem> all_problems(const ValueNode& node, const json& schema, const SchemaEngine& engine) {
  const std::vector<Violation> violations = engine.check(to_json(node));
  std::vector<std::vector<std::string>> alternatives;  // the outermost places where none of several fits
  for (const Violation& violation : violations) {
    if (!is_about_alternatives(violation.description) || alternatives.size() >= most_problems) continue;
    const auto covered = [&violation](const auto& outer) { return lies_within(violation.steps, outer); };
    if (std::any_of(alternatives.begin(), alternatives.end(), covered)) continue;
    const auto inner = [&violation](const auto& steps) { return lies_within(steps, violation.steps); };
    alternatives.erase(std::remove_if(alternatives.begin(), alternatives.end(), inner), alternatives.end());
    alternatives.push_back(violation.steps);
  }
  std::vector<Problem> problems;
  for (const auto& steps : alternatives)
    append(problems, problems_with_alternatives(follow(node, schema, schema, steps), schema));
  for (const Violation& violation : violations) {
    if (problems.size() >= most_problems) {
      problems.push_back(node.problem("and more of the same"));
      break;
    }
    const auto covers = [&violation](const auto& outer) { return lies_within(violation.steps, outer); };
    if (std::any_of(alternatives.begin(), alternatives.end(), covers)) continue;
    const Place place = follow(node, schema, schema, violation.steps);
    append(problems, problems_behind(violation.description, *place.node, place.parts, schema));
  }
  if (problems.empty() && !violations.empty()) {
    const Place place = follow(node, schema, schema, violations.front().steps);
    problems.push_back(place.node->problem("is not accepted here"));
  }
  return problems;
}

void sort_and_drop_repeats(std::vector<Problem>& problems) {
  const auto key = [](const Problem& p) { return std::tie(p.line, p.pointer, p.text); };
  std::stable_sort(problems.begin(), problems.end(),
                   [&key](const Problem& a, const Problem& b) { return key(a) < key(b); });
  problems.erase(std::unique(problems.begin(), problems.end(),
                             [&key](const Problem& a, const Problem& b) { return key(a) == key(b); }),
                 problems.end());
}

json parsed_schema(std::string_view text) {
  json schema = json::parse(text);
  const auto draft = schema.is_object() ? schema.find("$schema") : schema.end();
  if (draft == schema.end() || !draft->is_string()) throw std::runtime_error("it has no \"$schema\"");
  if (draft->get<std::string>().find("draft-07") == std::string::npos)
    throw std::runtime_error("\"$schema\" names another draft; expected \"http://json-schema.org/draft-07/schema#\"");
  return schema;
}

}  // namespace

struct Schema::Content {
  json schema;
  SchemaEngine engine;
};

Schema::Schema(std::string_view text, const std::string& called, ErrorCategory whose) {
  try {
    json schema = parsed_schema(text);
    SchemaEngine engine(schema);
    content_ = std::make_unique<const Content>(Content{std::move(schema), std::move(engine)});
  } catch (const std::exception& error) {
    throw Error(whose, called + " is not a JSON Schema of draft 7: " + error.what());
  }
}

Schema::~Schema() = default;
Schema::Schema(Schema&&) noexcept = default;
Schema& Schema::operator=(Schema&&) noexcept = default;

std::vector<Problem> Schema::problems(const ValueNode& node) const {
  std::vector<Problem> problems = all_problems(node, content_->schema, content_->engine);
  sort_and_drop_repeats(problems);
  return problems;
}

std::vector<Problem> Schema::problems(const Document& document) const {
  std::vector<Problem> problems = all_problems(document.root, content_->schema, content_->engine);
  problems.insert(problems.end(), document.problems.begin(), document.problems.end());
  sort_and_drop_repeats(problems);
  return problems;
}

}  // namespace ohmwright
