#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

LoadedKind::LoadedKind(std::shared_ptr<const Kind> kind, const Descriptor& descriptor, std::filesystem::path path)
    : kind_(std::move(kind)), descriptor_(&descriptor), path_(std::move(path)) {}

LoadedKind::LoadedKind(std::shared_ptr<const Kind> kind, const Descriptor& descriptor, std::filesystem::path path,
                       std::vector<std::string> not_held_back)
    : kind_(std::move(kind)),
      descriptor_(&descriptor),
      path_(std::move(path)),
      in_worker_(true),
      not_held_back_(std::move(not_held_back)) {}

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
  // The deleter holds kind and library: the code that destroys the part must be there for as long as the part.
  return {made.release(), [holder = kind_](const Part* part) { guarded([&] { delete part; }); }};
}

void LoadedKind::fail(std::string_view what, const std::string& thrown) const {
  throw PluginError(path_,
                    {std::string(what) + " of the kind " + ohmwright::quoted(descriptor().id) + " failed: " + thrown});
}

}  // namespace ohmwright
