#include <algorithm>
#include <iterator>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/kind_of_file.hpp>
#include <ohmwright/plugin/made_kind.hpp>
#include <ohmwright/plugin/plugin_error.hpp>

namespace ohmwright {

LoadedKind kind_of_file(const PluginLibrary& reader, const FoundPlugin& file) {
  const PluginTable& table = reader.table();
  const Document document = checked_kind_file(*file.kind_file, file.path);
  std::vector<std::string> reasons;
  const auto create = [&]() -> Kind* {
    std::vector<Problem> problems;
    Kind* kind = table.create_kind_from(document.root, problems);
    std::stable_sort(problems.begin(), problems.end(),
                     [](const Problem& a, const Problem& b) { return a.line < b.line; });
    std::vector<std::string> found = reasons_of(problems);
    std::move(found.begin(), found.end(), std::back_inserter(reasons));
    return kind;
  };
  MadeKind made = make_kind(table, file.kinds.front(), create, reasons);
  if (!reasons.empty()) throw PluginError(file.path, std::move(reasons), file.kinds);
  const DestroyKind destroy = made.kind.get_deleter();
  // The deleter holds the library, whose code destroys the kind.
  std::shared_ptr<const Kind> kind(made.kind.release(), [destroy, holder = reader.shared_from_this()](const Kind* one) {
    destroy(const_cast<Kind*>(one));  // `create` made it, and not const
  });
  return {std::move(kind), *made.descriptor, file.path};
}

}  // namespace ohmwright
