#include <algorithm>
#include <array>
#include <utility>

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

namespace {

constexpr std::array<std::pair<Outcome, std::string_view>, 4> outcome_names{{
    {Outcome::within_limits, "within-limits"},
    {Outcome::out_of_limits, "out-of-limits"},
    {Outcome::undecided, "undecided"},
    {Outcome::silent, "silent"},
}};

}  // namespace

std::string_view name_of(Outcome outcome) {
  for (const auto& [value, name] : outcome_names)
    if (value == outcome) return name;
  return "undecided";
}

std::optional<Outcome> outcome_named(std::string_view name) {
  for (const auto& [value, known] : outcome_names)
    if (known == name) return value;
  return std::nullopt;
}

bool Findings::has(std::uint16_t rule, Outcome outcome) const {
  return std::any_of(findings_.begin(), findings_.end(),
                     [&](const Finding& finding) { return finding.rule == rule && finding.outcome == outcome; });
}

bool Findings::has(Outcome outcome) const {
  return std::any_of(findings_.begin(), findings_.end(),
                     [&](const Finding& finding) { return finding.outcome == outcome; });
}

bool Findings::has_text(std::uint16_t rule, TextIndex text) const {
  return std::any_of(findings_.begin(), findings_.end(),
                     [&](const Finding& finding) { return finding.rule == rule && finding.text == text; });
}

bool Findings::advised(TextIndex text) const {
  return std::any_of(advice_.begin(), advice_.end(), [&](const Advice& advice) { return advice.text == text; });
}

}  // namespace ohmwright
