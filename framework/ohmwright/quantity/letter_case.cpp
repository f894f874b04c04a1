#include <algorithm>

#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright {

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& letter : lower) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  return lower;
}

std::string spoken_name(std::string_view name) {
  std::string spoken = lower_case(name);
  std::replace_if(
      spoken.begin(), spoken.end(), [](char letter) { return letter == ' ' || letter == '_'; }, '-');
  return spoken;
}

}  // namespace ohmwright
