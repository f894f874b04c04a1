#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

/// A parsed document as plugins see it: every node knows its place, so that a refusal can name it.
///
/// The host reads and validates files; no JSON library crosses the plugin boundary.
class ValueNode {
 public:
  using Array = std::vector<ValueNode>;
  using Members = std::vector<std::pair<std::string, ValueNode>>;  ///< in the file's order
  using Value = std::variant<std::monostate, bool, double, std::string, Array, Members>;

  ValueNode() = default;
  ValueNode(Value value, std::string pointer, int line)
      : value_(std::move(value)), pointer_(std::move(pointer)), line_(line) {}

  const std::string& pointer() const { return pointer_; }
  int line() const { return line_; }
  const Value& value() const { return value_; }

  /// The member of that name, or null when this is no object or has none.
  const ValueNode* find(std::string_view name) const {
    if (const auto* members = std::get_if<Members>(&value_))
      for (const auto& [key, node] : *members)
        if (key == name) return &node;
    return nullptr;
  }
  const std::string* text() const { return std::get_if<std::string>(&value_); }
  const double* number() const { return std::get_if<double>(&value_); }
  const bool* flag() const { return std::get_if<bool>(&value_); }
  const Array* array() const { return std::get_if<Array>(&value_); }
  const Members* members() const { return std::get_if<Members>(&value_); }

  /// A problem at this place.
  Problem problem(std::string text) const { return {pointer_, line_, std::move(text)}; }

 private:
  Value value_;
  std::string pointer_;
  int line_ = 0;
};

}  // namespace ohmwright
