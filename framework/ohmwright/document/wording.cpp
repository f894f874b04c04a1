#include <fmt/core.h>

#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/near_miss.hpp>

namespace ohmwright {

std::string suggestion(std::string_view typed, const std::vector<std::string>& accepted) {
  if (accepted.empty()) return {};
  const std::string meant = did_you_mean(typed, accepted);
  return meant.empty() ? "; expected " + one_of(accepted) : meant;
}

std::string size_in_words(unsigned long long bytes) {
  if (bytes < 10'000) return fmt::format("{} bytes", bytes);
  if (bytes < 1'000'000) return fmt::format("{:.0f} kB", static_cast<double>(bytes) / 1e3);
  return fmt::format("{:.1f} MB", static_cast<double>(bytes) / 1e6);
}

}  // namespace ohmwright
