#include <algorithm>
#include <cmath>
#include <deque>
#include <optional>
#include <string>

#include <fmt/format.h>

#include <ohmwright/instrument/settling.hpp>
#include <ohmwright/instrument/settling_window.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright::instrument {

namespace {

const StatedValue* number_in(const Observed& observed) { return std::get_if<StatedValue>(&observed); }

std::optional<double> value_in(const Observed& observed) {
  const StatedValue* number = number_in(observed);
  return number == nullptr ? std::nullopt : std::optional<double>(number->value.value_in_si());
}

struct Extent {
  AnyQuantity smallest;
  AnyQuantity largest;
};

/// The extent of the numbers among them; nothing where there is none.
std::optional<Extent> extent_of(const std::deque<Observed>& last) {
  std::optional<Extent> extent;
  for (const Observed& one : last) {
    const StatedValue* number = number_in(one);
    if (number == nullptr) continue;
    if (!extent) extent = Extent{number->value, number->value};
    if (number->value.value_in_si() < extent->smallest.value_in_si()) extent->smallest = number->value;
    if (number->value.value_in_si() > extent->largest.value_in_si()) extent->largest = number->value;
  }
  return extent;
}

/// ", and it would move by 0.4 % in the next 30 s"
std::string pace_text(const SettlingWindow& window, const Observed& observed, const Settling& settling) {
  const std::optional<double> moves = window.movement();
  const std::optional<double> value = value_in(observed);
  if (!moves || !value || *value == 0.0) return {};
  return fmt::format(", and at its pace it moves by {:.2g} % in the next {} s", 100.0 * std::abs(*moves / *value),
                     settling.outlook.count() / 1000);
}

[[noreturn]] void refuse_unsettled(const std::deque<Observed>& last, const SettlingWindow& window,
                                   const Settling& settling) {
  const std::optional<Extent> extent = extent_of(last);
  const bool comes_and_goes =
      extent && std::any_of(last.begin(), last.end(), [](const Observed& one) { return number_in(one) == nullptr; });
  const std::string time = std::to_string(settling.longest.count() / 1000) + " s";
  if (comes_and_goes)
    throw InputError("the instrument shows over-range and values in turn, still after " + time +
                     ": a loose contact, or leads that are not held firmly");
  throw InputError(
      "the reading does not settle within " + time + ": the last values lie between " +
      (extent ? display_text(extent->smallest) + " and " + display_text(extent->largest) : std::string("nothing")) +
      pace_text(window, last.back(), settling) + "; let the part reach its temperature, and hold the leads firmly");
}

/// A program that printed one value and ended has said all that it knows.
SettledReading last_word(const std::deque<Observed>& last, std::size_t taken, const Settling& settling) {
  if (taken == 1) return {last.back(), 1, 0, {}};
  throw InputError("the program printed " + std::to_string(taken) +
                   " values and ended; print one that has settled, or go on: " + std::to_string(settling.agreeing) +
                   " that agree over " + std::to_string(settling.least_span.count() / 1000) + " s and more are needed");
}

}  // namespace

SettledReading read_settled(Readout& readout, const Settling& settling, const Clock& clock) {
  constexpr std::size_t values_to_tell = 5;
  const auto start = clock();
  SettlingWindow window(settling);
  std::deque<Observed> last;
  std::size_t taken = 0;
  while (!window.is_settled()) {
    if (!last.empty() && clock() - start > settling.longest) refuse_unsettled(last, window, settling);
    std::optional<Observed> observed = readout.next();
    if (!observed) return last_word(last, taken, settling);
    ++taken;
    window.take(clock(), value_in(*observed));
    last.push_back(*std::move(observed));
    if (last.size() > values_to_tell) last.pop_front();
  }
  return {last.back(), window.count(), taken - window.count(), window.span()};
}

}  // namespace ohmwright::instrument
