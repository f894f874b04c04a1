#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include <ohmwright/batch/summary.hpp>

namespace ohmwright::batch {

namespace {

template <class Map>
void add_by_name(Map& to, const Map& from) {
  for (const auto& [name, one] : from) to[name].add(one);
}

}  // namespace

void OutcomeCounts::count(Outcome outcome) {
  if (outcome == Outcome::within_limits) ++within;
  if (outcome == Outcome::out_of_limits) ++out;
  if (outcome == Outcome::undecided) ++undecided;
}

void OutcomeCounts::add(const OutcomeCounts& other) {
  within += other.within;
  out += other.out;
  undecided += other.undecided;
}

void WideCount::add(WideCount other) {
  low += other.low;
  high += other.high + (low < other.low ? 1U : 0U);
}

double WideCount::as_double() const { return std::ldexp(static_cast<double>(high), 64) + static_cast<double>(low); }

std::string WideCount::text() const { return fmt::format("{:016x}{:016x}", high, low); }

std::optional<WideCount> WideCount::from_text(std::string_view text) {
  constexpr std::size_t digits = 16;
  if (text.size() != 2 * digits) return std::nullopt;
  WideCount wide;
  for (auto [part, number] : {std::pair{text.substr(0, digits), &wide.high}, {text.substr(digits), &wide.low}}) {
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), *number, 16);
    if (error != std::errc{} || end != part.data() + part.size()) return std::nullopt;
  }
  return wide;
}

void Places::take(double place) {
  const auto step =
      static_cast<std::int64_t>(std::llround(std::clamp(place, -farthest_place, farthest_place) / place_step));
  ++count;
  sum += step;
  sum_of_squares.add({0, static_cast<std::uint64_t>(step * step)});
}

void Places::add(const Places& other) {
  count += other.count;
  sum += other.sum;
  sum_of_squares.add(other.sum_of_squares);
}

double Places::mean() const {
  return count == 0 ? 0.0 : static_cast<double>(sum) / static_cast<double>(count) * place_step;
}

double Places::standard_deviation() const {
  if (count < 2) return 0.0;
  const auto n = static_cast<double>(count);
  const double mean_step = static_cast<double>(sum) / n;
  const double squares = sum_of_squares.as_double() - n * mean_step * mean_step;
  return std::sqrt(std::max(0.0, squares / (n - 1.0))) * place_step;
}

void RuleSummary::add(const RuleSummary& other) {
  outcomes.add(other.outcomes);
  places.add(other.places);
}

void Population::add(const Population& other) {
  verdicts.add(other.verdicts);
  add_by_name(rules, other.rules);
}

void KindSummary::add(const KindSummary& other) {
  all.add(other.all);
  add_by_name(lots, other.lots);
}

void Summary::add(const Summary& other) {
  refused += other.refused;
  cut_short += other.cut_short;
  add_by_name(kinds, other.kinds);
}

std::uint64_t Summary::judged() const {
  std::uint64_t judged = 0;
  for (const auto& [name, kind] : kinds) judged += kind.all.verdicts.all();
  return judged;
}

}  // namespace ohmwright::batch
