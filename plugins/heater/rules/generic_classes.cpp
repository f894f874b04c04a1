#include "rules/generic_classes.hpp"

#include <array>

namespace ohmwright::heater {

namespace {

// The same figures stand in ratings/*.json; a test holds the two together.
constexpr std::array<GenericClass, 6> classes{{
    {"heater-450w-120v", 120.0, 450.0},
    {"heater-600w-120v", 120.0, 600.0},
    {"heater-400w-115v", 115.0, 400.0},
    {"heater-180w-230v", 230.0, 180.0},
    {"heater-2kw-230v", 230.0, 2000.0},
    {"heater-5200w-240v", 240.0, 5200.0},
}};

}  // namespace

std::span<const GenericClass> generic_classes() { return classes; }

}  // namespace ohmwright::heater
