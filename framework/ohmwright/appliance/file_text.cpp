#include <algorithm>
#include <array>
#include <charconv>

#include <ohmwright/appliance/file_text.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t longest_line = 110;

std::string text_of_string(const std::string& text) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string quoted = "\"";
  for (const char letter : text) {
    const auto byte = static_cast<unsigned char>(letter);
    if (letter == '"' || letter == '\\')
      quoted += std::string{'\\', letter};
    else if (letter == '\n')
      quoted += "\\n";
    else if (letter == '\t')
      quoted += "\\t";
    else if (byte < 0x20)
      quoted += std::string("\\u00") + digits[byte >> 4U] + digits[byte & 15U];
    else
      quoted += letter;
  }
  return quoted + '"';
}

/// The shortest text that reads back as this number.
std::string text_of_number(double number) {
  std::array<char, 32> digits{};
  const auto written = std::to_chars(digits.data(), digits.data() + digits.size(), number);
  return {digits.data(), written.ptr};
}

std::string one_line(const ValueNode& node) {
  if (const std::string* text = node.text()) return text_of_string(*text);
  if (const double* number = node.number()) return text_of_number(*number);
  if (const bool* flag = node.flag()) return *flag ? "true" : "false";
  std::string line;
  if (const ValueNode::Array* array = node.array()) {
    for (const ValueNode& entry : *array) line += (line.empty() ? "" : ", ") + one_line(entry);
    return "[" + line + "]";
  }
  if (const ValueNode::Members* members = node.members()) {
    for (const auto& [name, member] : *members)
      line += (line.empty() ? "" : ", ") + text_of_string(name) + ": " + one_line(member);
    return "{" + line + "}";
  }
  return "null";
}

std::size_t letters_of(std::string_view text) {  // UTF-8: the bytes that go on a letter are not counted
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char byte) { return (byte & 0xc0) != 0x80; }));
}

/// `start` is where on its line the text begins; `indent` where that line does.
std::string laid_out(const ValueNode& node, std::size_t indent, std::size_t start) {
  std::string line = one_line(node);
  const bool holds_others = node.array() != nullptr || node.members() != nullptr;
  const bool is_root = start == 0;
  if (!holds_others || line.size() == 2 || (!is_root && start + letters_of(line) <= longest_line)) return line;
  const std::string margin(indent + 2, ' ');
  std::string rows;
  if (const ValueNode::Array* array = node.array()) {
    for (const ValueNode& entry : *array)
      rows += (rows.empty() ? "" : ",\n") + margin + laid_out(entry, indent + 2, indent + 2);
    return "[\n" + rows + "\n" + std::string(indent, ' ') + "]";
  }
  for (const auto& [name, member] : *node.members()) {
    const std::string key = text_of_string(name) + ": ";
    rows += (rows.empty() ? "" : ",\n") + margin + key + laid_out(member, indent + 2, indent + 2 + letters_of(key));
  }
  return "{\n" + rows + "\n" + std::string(indent, ' ') + "}";
}

}  // namespace

std::string file_text(const ValueNode& root) { return laid_out(root, 0, 0) + "\n"; }

}  // namespace ohmwright
