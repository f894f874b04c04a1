#include <algorithm>
#include <array>
#include <string>

#include <ohmwright/safety/refrigerant.hpp>

namespace ohmwright {

namespace {

struct ClassOfRefrigerant {
  std::string_view designation;  ///< small letters, no "R", no hyphen, no blank
  std::string_view safety_class;
};

/// ISO 817, tables of designations and safety classes (from memory). What is not here may burn: add none by likeness.
constexpr std::array known_classes{
    ClassOfRefrigerant{"11", "A1"},     ClassOfRefrigerant{"12", "A1"},       ClassOfRefrigerant{"22", "A1"},
    ClassOfRefrigerant{"134a", "A1"},   ClassOfRefrigerant{"401a", "A1"},     ClassOfRefrigerant{"402a", "A1"},
    ClassOfRefrigerant{"404a", "A1"},   ClassOfRefrigerant{"407c", "A1"},     ClassOfRefrigerant{"409a", "A1"},
    ClassOfRefrigerant{"410a", "A1"},   ClassOfRefrigerant{"417a", "A1"},     ClassOfRefrigerant{"450a", "A1"},
    ClassOfRefrigerant{"500", "A1"},    ClassOfRefrigerant{"502", "A1"},      ClassOfRefrigerant{"507a", "A1"},
    ClassOfRefrigerant{"513a", "A1"},   ClassOfRefrigerant{"744", "A1"},      ClassOfRefrigerant{"carbondioxide", "A1"},
    ClassOfRefrigerant{"32", "A2L"},    ClassOfRefrigerant{"1234yf", "A2L"},  ClassOfRefrigerant{"1234ze(e)", "A2L"},
    ClassOfRefrigerant{"717", "B2L"},   ClassOfRefrigerant{"ammonia", "B2L"}, ClassOfRefrigerant{"152a", "A2"},
    ClassOfRefrigerant{"170", "A3"},    ClassOfRefrigerant{"290", "A3"},      ClassOfRefrigerant{"propane", "A3"},
    ClassOfRefrigerant{"436a", "A3"},   ClassOfRefrigerant{"441a", "A3"},     ClassOfRefrigerant{"600", "A3"},
    ClassOfRefrigerant{"butane", "A3"}, ClassOfRefrigerant{"600a", "A3"},     ClassOfRefrigerant{"isobutane", "A3"},
    ClassOfRefrigerant{"1270", "A3"},   ClassOfRefrigerant{"propene", "A3"},  ClassOfRefrigerant{"propylene", "A3"},
};

std::string plain(std::string_view designation) {
  std::string text;
  for (const char letter : designation)
    if (letter != ' ' && letter != '-')
      text += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  const bool has_prefix = text.size() > 1 && text[0] == 'r' && text[1] >= '0' && text[1] <= '9';
  return has_prefix ? text.substr(1) : text;
}

}  // namespace

std::optional<std::string_view> refrigerant_safety_class(std::string_view designation) {
  const std::string name = plain(designation);
  const auto* found = std::find_if(known_classes.begin(), known_classes.end(),
                                   [&](const ClassOfRefrigerant& one) { return one.designation == name; });
  return found == known_classes.end() ? std::nullopt : std::optional<std::string_view>(found->safety_class);
}

bool refrigerant_may_burn(std::string_view designation) {
  if (designation == "non-flammable" || designation == "none" || designation == "other") return false;
  return refrigerant_safety_class(designation) != "A1";
}

}  // namespace ohmwright
