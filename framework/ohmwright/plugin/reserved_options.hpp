#pragma once

#include <algorithm>
#include <array>
#include <string_view>

namespace ohmwright {

/// Options of the command line that no condition of a kind may be called like, without their dashes: those of every
/// verb, of the verbs that take conditions, and the circumstances that stand among the readings. A test holds the
/// verbs' tables against it.
inline constexpr std::array<std::string_view, 46> reserved_options{
    "help",       "version",   "plugins",    "language",   "width",       "colour",  "ratings",   "readings",
    "meter",      "series",    "confidence", "every-rule", "live-agreed", "format",  "out",       "lead-off",
    "in-circuit", "wet",       "dry",        "unplugged",  "proved-dead", "live",    "range",     "cautions",
    "of",         "from",      "to",         "step",       "given",       "control", "measurand", "save",
    "form",       "name",      "title",      "source",     "leads",       "kind",    "like",      "without-code",
    "timeout",    "four-wire", "time",       "book",       "job",         "who",
};

constexpr bool is_reserved_option(std::string_view name) {
  return std::find(reserved_options.begin(), reserved_options.end(), name) != reserved_options.end();
}

}  // namespace ohmwright
