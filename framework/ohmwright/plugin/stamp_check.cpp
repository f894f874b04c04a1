#include <algorithm>
#include <array>
#include <optional>
#include <span>

#include <ohmwright/plugin/stamp_check.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view our_build_tag = OHMWRIGHT_BUILD_TAG;
static_assert(our_build_tag.size() < sizeof(PluginStamp::build_tag));
constexpr std::array<std::string_view, 6> tag_pieces = {"C++ ABI",      "standard library", "container checks",
                                                        "C++ standard", "Boost version",    "pointer size"};

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> pieces;
  for (;;) {
    const std::size_t end = text.find(separator);
    pieces.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return pieces;
    text.remove_prefix(end + 1);
  }
}

/// The text in a fixed field, or nothing where its terminating zero is missing.
std::optional<std::string_view> text_in(std::span<const char> field) {
  const auto end = std::find(field.begin(), field.end(), '\0');
  if (end == field.end()) return std::nullopt;
  return std::string_view(field.data(), static_cast<std::size_t>(end - field.begin()));
}

std::string abi_reason(std::uint32_t theirs) {
  const std::string numbers = "it was built for plugin ABI " + std::to_string(theirs);
  const std::string ours = " than this program's " + std::to_string(plugin_abi);
  if (theirs > plugin_abi) return numbers + ", newer" + ours + ": update ohmwright, or rebuild the plugin against it";
  return numbers + ", older" + ours + ": rebuild the plugin against the installed ohmwright";
}

void compare_build_tags(std::optional<std::string_view> theirs, std::vector<std::string>& reasons) {
  if (theirs == our_build_tag) return;
  const std::vector<std::string_view> their_pieces = split(theirs.value_or(std::string_view()), ' ');
  const std::vector<std::string_view> our_pieces = split(our_build_tag, ' ');
  if (!theirs || their_pieces.size() != tag_pieces.size() || our_pieces.size() != tag_pieces.size()) {
    reasons.push_back("its build tag is " + ohmwright::quoted(theirs.value_or("")) + ", this program's " +
                      ohmwright::quoted(our_build_tag, our_build_tag.size()));
  } else {
    for (std::size_t i = 0; i < tag_pieces.size(); ++i) {
      if (their_pieces[i] == our_pieces[i]) continue;
      reasons.push_back("it was built with another " + std::string(tag_pieces[i]) + ": " +
                        ohmwright::quoted(their_pieces[i]) + ", this program with " + ohmwright::quoted(our_pieces[i]));
    }
  }
}

StampedKind read_kind(std::string_view line, std::vector<std::string>& reasons) {
  const std::vector<std::string_view> names = split(line, '\t');
  StampedKind kind{std::string(names.front()), {}};
  if (!is_kind_id(kind.id)) {
    reasons.push_back("its kind " + ohmwright::quoted(kind.id) +
                      " must be named with a-z, 0-9 and -, beginning with a letter");
  }
  for (std::size_t i = 1; i < names.size(); ++i) {
    if (names[i].empty() || !is_shown_as_it_is(names[i])) {
      reasons.push_back("an alias of its kind " + ohmwright::quoted(kind.id) +
                        " cannot be shown: " + ohmwright::quoted(names[i]));
    } else {
      kind.aliases.emplace_back(names[i]);
    }
  }
  return kind;
}

void read_kinds(std::optional<std::string_view> text, CheckedStamp& checked) {
  if (!text) {
    checked.reasons.emplace_back("the list of kinds in its stamp has no end");
    return;
  }
  if (text->empty()) {
    checked.reasons.emplace_back("its stamp names no kind");
    return;
  }
  if (*text == reads_kind_files) {
    checked.reads_kind_files = true;
    return;
  }
  if (text->back() == '\n') text->remove_suffix(1);
  for (const std::string_view line : split(*text, '\n')) {
    StampedKind kind = read_kind(line, checked.reasons);
    const bool twice = std::any_of(checked.kinds.begin(), checked.kinds.end(),
                                   [&](const StampedKind& other) { return other.id == kind.id; });
    if (twice) checked.reasons.push_back("its stamp names the kind " + ohmwright::quoted(kind.id) + " twice");
    checked.kinds.push_back(std::move(kind));
  }
}

}  // namespace

bool is_called(const StampedKind& kind, std::string_view spoken) {
  return spoken_name(kind.id) == spoken ||
         std::any_of(kind.aliases.begin(), kind.aliases.end(),
                     [&](const std::string& alias) { return spoken_name(alias) == spoken; });
}

bool is_kind_id(std::string_view id) {
  const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  return !id.empty() && is_letter(id.front()) &&
         std::all_of(id.begin(), id.end(), [&](char c) { return is_letter(c) || (c >= '0' && c <= '9') || c == '-'; });
}

bool is_shown_as_it_is(std::string_view name) {
  return ohmwright::quoted(name, name.size()) == '"' + std::string(name) + '"';
}

CheckedStamp check_stamp(const PluginStamp& stamp) {
  CheckedStamp checked;
  if (!std::equal(std::begin(stamp.magic), std::end(stamp.magic), std::begin(stamp_magic))) {
    checked.reasons.emplace_back("its stamp does not begin with \"ohmwright-stamp\"");
    return checked;  // whatever else stands there is not a stamp
  }
  const bool same_layout = stamp.size == sizeof(PluginStamp);
  if (!same_layout) {
    checked.reasons.push_back("its stamp has " + std::to_string(stamp.size) + " bytes, this program's " +
                              std::to_string(sizeof(PluginStamp)));
  }
  if (stamp.abi != plugin_abi) checked.reasons.push_back(abi_reason(stamp.abi));
  if (!same_layout) return checked;
  checked.compiler = text_in(stamp.compiler).value_or(std::string_view());
  const std::size_t before = checked.reasons.size();
  compare_build_tags(text_in(stamp.build_tag), checked.reasons);
  if (checked.reasons.size() > before && stamp.abi == plugin_abi)
    checked.reasons.emplace_back("rebuild the plugin against the installed ohmwright, with its compiler settings");
  read_kinds(text_in(stamp.kinds), checked);
  return checked;
}

}  // namespace ohmwright
