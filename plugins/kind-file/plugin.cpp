#include <ohmwright/component/plugin_entry.hpp>

#include "kind_of_file.hpp"

namespace {

ohmwright::Kind* create_from(const ohmwright::ValueNode& document, std::vector<ohmwright::Problem>& problems) {
  return ohmwright::kind_file::kind_of(document, problems).release();
}

}  // namespace

OHMWRIGHT_KIND_FILE_PLUGIN(create_from)
