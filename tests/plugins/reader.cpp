#include <stdexcept>
#include <string>

#include <ohmwright/component/value_tree.hpp>

#include "support/fixture_kind.hpp"

// Reads kind files, and fails in the way that the file's title asks for.
namespace {

ohmwright::Kind* create_from(const ohmwright::ValueNode& document, std::vector<ohmwright::Problem>& problems) {
  const std::string wanted = *document.find("title")->text();
  if (wanted == "throws") throw std::runtime_error("no wish to read that");
  if (wanted == "gives nothing") return nullptr;
  if (wanted == "cannot be shown") problems.push_back(document.find("kind")->problem("red \x1b[31m\nand more"));
  const bool is_another = wanted == "is another";
  return new fixture::FixtureKind<>(
      fixture::complete_descriptor(is_another ? std::string_view("another-part") : std::string_view("test-coil")));
}

}  // namespace

OHMWRIGHT_KIND_FILE_PLUGIN(create_from)
