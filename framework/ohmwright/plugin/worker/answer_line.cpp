#include <cstddef>

#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/plugin/worker/answer_line.hpp>

namespace ohmwright {

std::optional<nlohmann::json> parsed_answer(std::string_view line) {
  using Wire = nlohmann::json;
  constexpr DocumentLimits most{};  // of a document that people write; a row of ours is nested no deeper than its tree
  // Of a tree of ratings each level takes four: its row, what it holds, the list of members, one of them.
  constexpr int deepest = 4 * static_cast<int>(most.depth) + 16;
  std::size_t values = 0;
  bool is_within = true;
  const auto keep = [&](int depth, Wire::parse_event_t event, Wire& /*value*/) {
    const bool begins = event == Wire::parse_event_t::array_start || event == Wire::parse_event_t::object_start;
    if (begins || event == Wire::parse_event_t::value) ++values;
    is_within = is_within && depth < deepest && values <= 8 * most.values;
    return is_within;
  };
  Wire answer = Wire::parse(line.begin(), line.end(), keep, false);
  if (!is_within || !answer.is_object()) return std::nullopt;
  return answer;
}

}  // namespace ohmwright
