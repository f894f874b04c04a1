// The kit's search for what an author has still to write.

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/conformance/kit/kit.hpp>
#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>

namespace ohmwright {

namespace {

bool is_of_a_word(char letter) { return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_'; }

std::string in_capitals(std::string_view text) {
  std::string capitals(text);
  std::transform(capitals.begin(), capitals.end(), capitals.begin(),
                 [](unsigned char letter) { return static_cast<char>(std::toupper(letter)); });
  return capitals;
}

bool holds_word(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || !is_of_a_word(text[at - 1])) && (end == text.size() || !is_of_a_word(text[end]))) return true;
  }
  return false;
}

/// "@KIND@": a field of a template that nobody filled in.
bool holds_field(std::string_view text) {
  const std::size_t begin = text.find('@');
  if (begin == std::string_view::npos) return false;
  std::size_t end = begin + 1;
  while (end < text.size() && std::isupper(static_cast<unsigned char>(text[end])) != 0) ++end;
  if (end > begin + 1 && end < text.size() && text[end] == '@') return true;
  return holds_field(text.substr(begin + 1));
}

class PlaceholderSearch {
 public:
  std::vector<std::string> found;

  /// Every text of a document, with its place.
  void in_node(const ValueNode& node, const std::string& file) {
    if (const std::string* text = node.text(); text != nullptr && holds_placeholder(*text))
      found.push_back(file + ":" + std::to_string(node.line()) + ": " + node.pointer() + ": " + *text);
    if (const ValueNode::Array* items = node.array())
      for (const ValueNode& item : *items) in_node(item, file);
    if (const ValueNode::Members* members = node.members())
      for (const auto& [name, member] : *members) in_node(member, file);
  }

  void in_folder(const std::filesystem::path& folder) {
    for (const std::string& name : names_in_folder(folder.string())) {
      const std::filesystem::path file = folder / (name + ".json");
      in_node(read_document(file.string()).root, (folder.filename() / file.filename()).string());
    }
  }

  void in_readme(const std::filesystem::path& folder) {
    std::ifstream readme(folder / "README.md");
    int number = 0;
    for (std::string line; std::getline(readme, line);) {
      ++number;
      if (holds_placeholder(line)) found.push_back("README.md:" + std::to_string(number) + ": " + line);
    }
  }

  void in_descriptor(const Descriptor& descriptor) {
    look("kind", descriptor.id, {descriptor.title});
    for (const std::string_view alias : descriptor.aliases) look("alias", alias, {alias});
    for (const MeasurandDescriptor& measurand : descriptor.measurands)
      look("measurand", measurand.id, {measurand.title});
    for (const ConditionDescriptor& condition : descriptor.conditions)
      look("condition", condition.id, {condition.title, condition.default_half_width_source});
    for (const StateDescriptor& state : descriptor.states) {
      look("state", state.id, {state.title});
      in_texts("state", state.id, state.values);
    }
    for (const RuleDescriptor& rule : descriptor.rules) {
      look("rule", rule.id, {rule.title, rule.source});
      in_texts("rule", rule.id, rule.texts);
    }
    for (const AdviceDescriptor& advice : descriptor.advice) look("advice", advice.id, {advice.english});
    for (const ProcedureDescriptor& procedure : descriptor.procedures) {
      look("procedure", procedure.id, {procedure.title});
      in_texts("procedure", procedure.id, procedure.steps);
    }
    for (const CautionDescriptor& caution : descriptor.cautions)
      look("caution", caution.id, {caution.brief, caution.english, caution.source});
    for (const FaultModeDescriptor& mode : descriptor.fault_modes)
      look("fault mode", mode.id, {mode.title, mode.prior_source});
    for (const ErrorSourceDescriptor& source : descriptor.error_sources) look("doubt", source.id, {source.title});
  }

 private:
  void look(std::string_view sort, std::string_view id, std::initializer_list<std::string_view> texts) {
    for (const std::string_view text : texts)
      if (holds_placeholder(text))
        found.push_back(std::string(sort) + " " + std::string(id) + ": " + std::string(text));
  }

  void in_texts(std::string_view sort, std::string_view id, const std::vector<TextEntry>& texts) {
    for (const TextEntry& text : texts) look(sort, std::string(id) + ", " + std::string(text.id), {text.english});
  }
};

}  // namespace

bool holds_placeholder(std::string_view text) {
  constexpr std::array<std::string_view, 3> in_capitals_only{"TODO", "FIXME", "TBD"};  // "todo" is a word elsewhere
  return holds_word(in_capitals(text), placeholder) || holds_field(text) ||
         std::any_of(in_capitals_only.begin(), in_capitals_only.end(),
                     [text](std::string_view word) { return holds_word(text, word); });
}

std::vector<std::string> placeholders_of(const LoadedKind& kind) {
  PlaceholderSearch search;
  if (is_of_kind_file(kind))  // what stands in it is told with its line
    search.in_node(read_document(kind.path().string()).root, kind.path().filename().string());
  else
    search.in_descriptor(kind.descriptor());
  search.in_folder(kind.ratings_folder());
  search.in_folder(kind.vectors_folder());
  search.in_readme(kind.data_folder());
  return std::move(search.found);
}

}  // namespace ohmwright
