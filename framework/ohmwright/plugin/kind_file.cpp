#include <algorithm>
#include <memory>
#include <span>
#include <utility>

#include <ohmwright/document/digest.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/reserved_options.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

/// Far above what anybody writes by hand; every start of the program takes in all kind files.
constexpr DocumentLimits most_in_a_kind_file{.bytes = std::size_t{1} << 20U, .depth = 16, .values = 20'000};

std::string text_in(const ByteSource& bytes, const TrustedFile& file) {
  if (bytes.size() > most_in_a_kind_file.bytes) {
    throw PluginError(file.path,
                      {"it has " + std::to_string(bytes.size()) + " bytes, more than any kind file may have (" +
                       std::to_string(most_in_a_kind_file.bytes) + ")"});
  }
  std::string text(static_cast<std::size_t>(bytes.size()), '\0');
  if (!bytes.read(0, std::as_writable_bytes(std::span(text))))
    throw PluginError(file.path, {"the file became shorter while it was read; try again"});
  return text;
}

Document parsed(const std::string& text, const std::filesystem::path& path) {
  try {
    return parse_document_to_check(text, path.string(), most_in_a_kind_file);
  } catch (const DocumentError& error) {
    throw PluginError(path, reasons_of(error.problems()));
  }
}

bool is_named_after(const std::filesystem::path& path, const StampedKind& kind) {
  return path.filename() == kind.id + std::string(kind_file_suffix);
}

void check_name(const ValueNode& root, const StampedKind& kind, const std::filesystem::path& path,
                std::vector<Problem>& problems) {
  if (!is_kind_id(kind.id) || is_named_after(path, kind)) return;  // of a wrong id the schema has told
  const std::string expected = kind.id + std::string(kind_file_suffix);
  problems.push_back(root.find("kind")->problem("the kind " + ohmwright::quoted(kind.id) +
                                                " must stand in a file of that name: " + expected));
}

void check_aliases(const ValueNode& root, std::vector<Problem>& problems) {
  for (const ValueNode& alias : list_of(root, "aliases"))
    if (alias.text() != nullptr && !is_shown_as_it_is(*alias.text()))
      problems.push_back(alias.problem("the alias cannot be shown: " + ohmwright::quoted(*alias.text())));
}

void check_option(const ValueNode& row, const char* field, std::vector<Problem>& problems) {
  const ValueNode* node = row.find(field);
  if (node == nullptr || node->text() == nullptr || !is_reserved_option(*node->text())) return;
  problems.push_back(node->problem("the option " + ohmwright::quoted("--" + *node->text()) + " is the program's own"));
}

/// The one thing about options that no plugin can know: which of them the command line has.
void check_options(const ValueNode& root, std::vector<Problem>& problems) {
  for (const ValueNode& condition : list_of(root, "conditions"))
    for (const char* field : {"id", "option"}) check_option(condition, field, problems);
  for (const ValueNode& state : list_of(root, "states")) check_option(state, "option", problems);
}

StampedKind names_in(const ValueNode& root) {
  StampedKind kind{text_of(root, "kind"), {}};
  for (const ValueNode& alias : list_of(root, "aliases"))
    if (alias.text() != nullptr) kind.aliases.push_back(*alias.text());
  return kind;
}

}  // namespace

bool is_named_as_kind_file(const std::filesystem::path& path) {
  return path.filename().native().ends_with(kind_file_suffix);
}

std::vector<std::string> reasons_of(const std::vector<Problem>& problems) {
  std::vector<std::string> reasons;
  for (const Problem& problem : problems) {
    std::string place = problem.line > 0 ? "line " + std::to_string(problem.line) : std::string();
    if (!problem.pointer.empty()) place += (place.empty() ? "" : ", ") + one_line(problem.pointer);
    reasons.push_back(place + (place.empty() ? "" : ": ") + one_line(problem.text));
  }
  return reasons;
}

std::vector<StampedKind> kind_named_by(const std::filesystem::path& path) {
  std::string name = path.filename().native();
  const bool is_library = path.extension() == plugin_suffix;
  if (!is_library && !is_named_as_kind_file(path)) return {};
  name.resize(name.size() - (is_library ? plugin_suffix.size() : kind_file_suffix.size()));
  return is_kind_id(name) ? std::vector<StampedKind>{{name, {}}} : std::vector<StampedKind>{};
}

Document checked_kind_file(const std::string& text, const std::filesystem::path& path) {
  Document document = parsed(text, path);
  const ValueNode& root = document.root;
  StampedKind kind = names_in(root);
  std::vector<Problem> problems = kind_schema().problems(document);
  check_name(root, kind, path, problems);
  check_aliases(root, problems);
  check_options(root, problems);
  std::stable_sort(problems.begin(), problems.end(),
                   [](const Problem& a, const Problem& b) { return a.line < b.line; });
  if (!problems.empty()) {
    throw PluginError(path, reasons_of(problems),
                      is_kind_id(kind.id) ? std::vector<StampedKind>{std::move(kind)} : std::vector<StampedKind>{});
  }
  return document;
}

FoundPlugin read_kind_file(const ByteSource& bytes, const TrustedFile& file, const KindIndex& index) {
  auto text = std::make_shared<const std::string>(text_in(bytes, file));
  FoundPlugin found{file.path, {}, {}, file.device, file.inode, false, false, text};
  if (!index.empty()) {
    const StampedKind* known = index.kind_in(blake2b_of(*text));
    if (known != nullptr && is_named_after(file.path, *known)) {
      found.kinds = {*known};
      return found;
    }
  }
  found.kinds = {names_in(checked_kind_file(*text, file.path).root)};
  return found;
}

}  // namespace ohmwright
