#include <algorithm>

#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

/// The row of that id, or null.
template <class Row>
const Row* row_of_id(std::span<const Row> rows, std::string_view id) {
  const auto found = std::find_if(rows.begin(), rows.end(), [id](const Row& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

const Caution* caution_named(std::string_view id) { return row_of_id(framework_cautions(), id); }

std::span<const std::string_view> cautions_of_step(std::string_view step) {
  const CautionedStep* found = row_of_id(cautioned_steps(), step);
  return found == nullptr ? std::span<const std::string_view>() : found->cautions;
}

}  // namespace ohmwright
