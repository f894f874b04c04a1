#include <algorithm>
#include <cmath>
#include <deque>
#include <optional>

#include <ohmwright/instrument/settling.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright::instrument {

namespace {

/// Values that cannot be told from nothing agree, whatever their share of the mean: a shorted part [SI].
constexpr double next_to_nothing = 1e-9;

const StatedValue* number_in(const Observed& observed) { return std::get_if<StatedValue>(&observed); }

bool all_over_range(const std::deque<Observed>& last) {
  return std::none_of(last.begin(), last.end(), [](const Observed& one) { return number_in(one) != nullptr; });
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

bool agree(const std::deque<Observed>& last, const Settling& settling) {
  if (last.size() < settling.agreeing) return false;
  if (all_over_range(last)) return true;
  for (const Observed& one : last)
    if (number_in(one) == nullptr) return false;
  const Extent extent = *extent_of(last);
  const double smallest = extent.smallest.value_in_si();
  const double largest = extent.largest.value_in_si();
  return largest - smallest <= std::max(next_to_nothing, settling.share * 0.5 * std::abs(smallest + largest));
}

[[noreturn]] void refuse_unsettled(const std::deque<Observed>& last, std::chrono::milliseconds waited) {
  const std::optional<Extent> extent = extent_of(last);
  const bool comes_and_goes =
      extent && std::any_of(last.begin(), last.end(), [](const Observed& one) { return number_in(one) == nullptr; });
  const std::string time = std::to_string(waited.count() / 1000) + " s";
  if (comes_and_goes)
    throw InputError("the instrument shows over-range and values in turn, still after " + time +
                     ": a loose contact, or leads that are not held firmly");
  throw InputError(
      "the reading does not settle within " + time + ": the last values lie between " +
      (extent ? display_text(extent->smallest) + " and " + display_text(extent->largest) : std::string("nothing")) +
      "; let the part reach its temperature, and hold the leads firmly");
}

}  // namespace

SettledReading read_settled(Readout& readout, const Settling& settling) {
  const auto start = std::chrono::steady_clock::now();
  std::deque<Observed> last;
  std::size_t taken = 0;
  while (!agree(last, settling)) {
    const auto waited = std::chrono::steady_clock::now() - start;
    if (!last.empty() && waited > settling.longest) refuse_unsettled(last, settling.longest);
    last.push_back(readout.next());
    ++taken;
    if (last.size() > settling.agreeing) last.pop_front();
  }
  SettledReading settled{last.back(), {}, taken - last.size()};
  if (number_in(last.back()) != nullptr)
    for (std::size_t i = 0; i + 1 < last.size(); ++i)
      settled.repeats.push_back(number_in(last[i])->value.value_in_si());
  return settled;
}

}  // namespace ohmwright::instrument
