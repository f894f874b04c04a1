#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t longest_compared = 64;

std::size_t edits_between(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> edits(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        edits[i][j] = i + j;
        continue;
      }
      const std::size_t change = edits[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      edits[i][j] = std::min({edits[i - 1][j] + 1, edits[i][j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        edits[i][j] = std::min(edits[i][j], edits[i - 2][j - 2] + 1);
      }
    }
  }
  return edits[a.size()][b.size()];
}

}  // namespace

std::optional<std::string> near_miss(std::string_view typed, std::span<const std::string> names) {
  if (typed.size() > longest_compared) return std::nullopt;
  const std::string wanted = lower_case(typed);
  std::optional<std::string> best;
  // Edits that ignore letter case decide, edits that do not break the tie: "Mhom" is nearer to Mohm than to mohm.
  std::pair<std::size_t, std::size_t> fewest{typed.size() / 3 + 1, 0};
  for (const std::string& name : names) {
    if (name.size() > longest_compared) continue;
    const std::pair edits{edits_between(wanted, lower_case(name)), edits_between(typed, name)};
    if (edits < fewest) {
      fewest = edits;
      best = name;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view typed, std::span<const std::string> names) {
  const std::optional<std::string> meant = near_miss(typed, names);
  return meant ? "; did you mean " + ohmwright::quoted(*meant) + "?" : std::string();
}

}  // namespace ohmwright
