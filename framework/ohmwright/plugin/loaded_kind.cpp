#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

LoadedKind::LoadedKind(std::shared_ptr<const PluginLibrary> library, std::size_t index,
                       std::filesystem::path library_path)
    : library_(std::move(library)), index_(index), library_path_(std::move(library_path)) {}

std::shared_ptr<const Part> LoadedKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  const std::size_t problems_before = problems.size();
  std::unique_ptr<const Part> made;
  call("making a part", [&] { made = kind().make_part(ratings, problems); });
  const bool has_problems = problems.size() > problems_before;
  if (made == nullptr && !has_problems) fail("making a part", "it made none and named no problem");
  for (std::size_t i = problems_before; i < problems.size(); ++i) {
    problems[i].text = one_line(problems[i].text);
    problems[i].pointer = one_line(problems[i].pointer);
  }
  if (has_problems) return nullptr;
  // The deleter holds the library: the code that destroys the part must be there for as long as the part.
  return {made.release(), [library = library_](const Part* part) { guarded([&] { delete part; }); }};
}

void LoadedKind::fail(std::string_view what, const std::string& thrown) const {
  throw PluginError(library_path_,
                    {std::string(what) + " of the kind " + ohmwright::quoted(descriptor().id) + " failed: " + thrown});
}

}  // namespace ohmwright
