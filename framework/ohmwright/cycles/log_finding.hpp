#pragma once

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ohmwright::cycles {

/// A number or text of a finding. Numbers are in SI units (s, K, W, A) or pure, as the argument's name says.
using LogArgumentValue = std::variant<double, std::string>;

struct LogArgument {
  std::string_view name;  ///< points at a constant
  LogArgumentValue value;
};

/// Something that was guessed, assumed, or that a log cannot show: an id and named arguments. The sentence is made when
/// it is printed.
struct LogFinding {
  std::string_view id;  ///< points at a constant
  std::vector<LogArgument> arguments = {};
  /// The user should be asked, since a wrong guess would change what the log says.
  bool asks = false;

  const LogArgumentValue* find(std::string_view name) const {
    for (const LogArgument& argument : arguments)
      if (argument.name == name) return &argument.value;
    return nullptr;
  }
  /// The number of that name; not-a-finding is nothing.
  std::optional<double> number(std::string_view name) const {
    const LogArgumentValue* value = find(name);
    const double* number = value == nullptr ? nullptr : std::get_if<double>(value);
    return number == nullptr ? std::nullopt : std::optional<double>(*number);
  }
  /// The text of that name; empty when there is none.
  std::string text(std::string_view name) const {
    const LogArgumentValue* value = find(name);
    const std::string* text = value == nullptr ? nullptr : std::get_if<std::string>(value);
    return text == nullptr ? std::string() : *text;
  }
};

/// The finding with that id, or null.
inline const LogFinding* find_finding(const std::vector<LogFinding>& findings, std::string_view id) {
  const auto found =
      std::find_if(findings.begin(), findings.end(), [&](const LogFinding& finding) { return finding.id == id; });
  return found == findings.end() ? nullptr : &*found;
}

}  // namespace ohmwright::cycles
