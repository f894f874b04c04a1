#include <cmath>

#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>

namespace ohmwright {

nlohmann::json to_json(const ValueNode& node) {
  constexpr double largest_exact = 9007199254740992.0;  // 2^53
  if (const bool* flag = node.flag()) return *flag;
  if (const std::string* text = node.text()) return *text;
  if (const double* number = node.number()) {
    const bool is_whole = std::trunc(*number) == *number && std::fabs(*number) <= largest_exact;
    if (is_whole && !std::signbit(*number)) return static_cast<std::uint64_t>(*number);
    if (is_whole && *number != 0.0) return static_cast<std::int64_t>(*number);
    return *number;
  }
  if (const ValueNode::Array* array = node.array()) {
    nlohmann::json list = nlohmann::json::array();
    for (const ValueNode& item : *array) list.push_back(to_json(item));
    return list;
  }
  if (const ValueNode::Members* members = node.members()) {
    nlohmann::json object = nlohmann::json::object();
    for (const auto& [name, member] : *members) object[name] = to_json(member);
    return object;
  }
  return nullptr;
}

}  // namespace ohmwright
