#include <algorithm>
#include <string_view>
#include <utility>

#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>

namespace ohmwright {

namespace {

std::string one_line_each(const std::filesystem::path& path, const std::vector<std::string>& reasons) {
  const char* refused = path.native().ends_with(kind_file_suffix) ? ": kind file refused: " : ": plugin refused: ";
  std::string text;
  for (const std::string& reason : reasons) {
    if (!text.empty()) text += '\n';
    text += shell_word(path) + refused + reason;
  }
  return text;
}

bool needs_no_quotes(unsigned char letter) {
  constexpr std::string_view harmless = "/._-+=:,@%";
  return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') || (letter >= '0' && letter <= '9') ||
         harmless.find(static_cast<char>(letter)) != std::string_view::npos;
}

bool can_be_shown(unsigned char letter) { return letter >= 0x20 && letter < 0x7F; }

}  // namespace

PluginError::PluginError(std::filesystem::path path, std::vector<std::string> reasons, std::vector<StampedKind> kinds)
    : Error(ErrorCategory::plugin, one_line_each(path, reasons)),
      path_(std::move(path)),
      reasons_(std::move(reasons)),
      kinds_(std::move(kinds)) {}

std::string shell_word(const std::filesystem::path& path) {
  const std::string& text = path.native();
  if (!text.empty() && std::all_of(text.begin(), text.end(), needs_no_quotes)) return text;
  const bool plain = std::all_of(text.begin(), text.end(), can_be_shown);
  std::string word = plain ? "'" : "$'";  // $'…' is the form in which bash and zsh read escapes
  for (const char letter : text) {
    const auto byte = static_cast<unsigned char>(letter);
    if (letter == '\'') {
      word += plain ? "'\\''" : "\\'";
    } else if (!plain && letter == '\\') {
      word += "\\\\";
    } else if (can_be_shown(byte)) {
      word += letter;
    } else {
      word += std::string("\\x") + "0123456789abcdef"[byte >> 4U] + "0123456789abcdef"[byte & 0xFU];
    }
  }
  return word + "'";
}

}  // namespace ohmwright
