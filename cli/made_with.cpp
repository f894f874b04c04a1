#include "made_with.hpp"

#include <array>
#include <ctime>

namespace ohmwright::cli {

std::string made_with() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  std::array<char, 16> day{};
  if (::localtime_r(&now, &local) != nullptr) std::strftime(day.data(), day.size(), "%Y-%m-%d", &local);
  return program_name() + ", " + day.data();
}

std::string program_name() { return "ohmwright " OHMWRIGHT_VERSION; }

}  // namespace ohmwright::cli
