#include <limits>
#include <utility>

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

void refuse_wire() { throw Error(ErrorCategory::plugin, "its answer is not as it should be"); }

std::string_view TextPool::keep(std::string_view text) {
  constexpr std::size_t most_bytes = std::size_t{1} << 20U;
  const std::lock_guard lock(guard_);
  if (const auto found = known_.find(text); found != known_.end()) return *found;
  bytes_ += text.size() + sizeof(std::string);
  if (bytes_ > most_bytes) throw Error(ErrorCategory::plugin, "it has more texts than any kind needs");
  return *known_.insert(texts_.emplace_back(text)).first;
}

nlohmann::json number_to_wire(double number) {
  if (number == number && number - number == 0.0) return number;  // finite
  if (number != number) return "nan";
  return number > 0.0 ? "infinity" : "-infinity";
}

double number_from_wire(const nlohmann::json& wire) {
  if (wire.is_number()) return wire.get<double>();
  if (wire == "nan") return std::numeric_limits<double>::quiet_NaN();
  if (wire == "infinity") return std::numeric_limits<double>::infinity();
  if (wire == "-infinity") return -std::numeric_limits<double>::infinity();
  refuse_wire();
}

/// [line, pointer, value]: an array as {"a": […]}, an object as {"m": [[name, node], …]}.
nlohmann::json to_wire(const ValueNode& node) {
  nlohmann::json value;
  if (const bool* flag = node.flag()) value = *flag;
  if (const double* number = node.number()) value = number_to_wire(*number);
  if (const std::string* text = node.text()) value = nlohmann::json{{"t", *text}};
  if (const ValueNode::Array* items = node.array()) {
    value = nlohmann::json{{"a", nlohmann::json::array()}};
    for (const ValueNode& item : *items) value["a"].push_back(to_wire(item));
  }
  if (const ValueNode::Members* members = node.members()) {
    value = nlohmann::json{{"m", nlohmann::json::array()}};
    for (const auto& [name, member] : *members) value["m"].push_back(nlohmann::json::array({name, to_wire(member)}));
  }
  return nlohmann::json::array({node.line(), node.pointer(), std::move(value)});
}

void from_wire(const nlohmann::json& wire, ValueNode& node, TextPool& texts) {
  if (!wire.is_array() || wire.size() != 3 || !wire[0].is_number_integer() || !wire[1].is_string()) refuse_wire();
  const nlohmann::json& held = wire[2];
  ValueNode::Value value;
  if (held.is_boolean()) value = held.get<bool>();
  if (held.is_number() || held.is_string()) value = number_from_wire(held);
  if (held.is_object() && held.contains("t") && held["t"].is_string()) value = held["t"].get<std::string>();
  if (held.is_object() && held.contains("a")) {
    ValueNode::Array items;
    for (const nlohmann::json& item : held["a"]) from_wire(item, items.emplace_back(), texts);
    value = std::move(items);
  }
  if (held.is_object() && held.contains("m")) {
    ValueNode::Members members;
    for (const nlohmann::json& member : held["m"]) {
      if (!member.is_array() || member.size() != 2 || !member[0].is_string()) refuse_wire();
      auto& [name, child] = members.emplace_back();
      name = member[0].get<std::string>();
      from_wire(member[1], child, texts);
    }
    value = std::move(members);
  }
  node = ValueNode(std::move(value), wire[1].get<std::string>(), wire[0].get<int>());
}

}  // namespace ohmwright
