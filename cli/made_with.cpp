#include "made_with.hpp"

#include <array>
#include <ctime>

namespace ohmwright::cli {

std::string made_with() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  std::array<char, 16> day{};
  if (::localtime_r(&now, &local) != nullptr) std::strftime(day.data(), day.size(), "%Y-%m-%d", &local);
  return std::string("ohmwright " OHMWRIGHT_VERSION ", ") + day.data();
}

}  // namespace ohmwright::cli
