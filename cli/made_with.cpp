#include "made_with.hpp"

#include <array>
#include <ctime>

namespace ohmwright::cli {

std::string program_version() { return "ohmwright " OHMWRIGHT_VERSION; }

std::string made_with() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  std::array<char, 16> day{};
  if (::localtime_r(&now, &local) != nullptr) std::strftime(day.data(), day.size(), "%Y-%m-%d", &local);
  return program_version() + ", " + day.data();
}

}  // namespace ohmwright::cli
