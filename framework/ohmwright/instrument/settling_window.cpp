#include <algorithm>
#include <cmath>

#include <ohmwright/instrument/settling_window.hpp>

namespace ohmwright::instrument {

namespace {

constexpr std::chrono::milliseconds longest_moment{50};

/// Values that cannot be told from nothing agree, whatever their share of the mean: a shorted part [SI].
constexpr double next_to_nothing = 1e-9;

double seconds_between(SettlingWindow::Time from, SettlingWindow::Time to) {
  return std::chrono::duration<double>(to - from).count();
}

}  // namespace

void SettlingWindow::take(Time at, std::optional<double> value) {
  if (over_range_ != !value) moments_.clear();
  over_range_ = !value;
  add(at, value.value_or(0.0));
  while (moments_.size() > 1 && extent() > tolerance()) moments_.pop_front();
  if (extent() <= tolerance()) return;
  moments_.clear();  // even those of the last moment differ: begin with the last one
  add(at, value.value_or(0.0));
}

void SettlingWindow::add(Time at, double value) {
  if (moments_.empty() || at - moments_.back().first >= longest_moment)
    moments_.push_back({at, at, 0, 0.0, value, value});
  Moment& moment = moments_.back();
  moment.last = at;
  ++moment.count;
  moment.sum += value;
  moment.smallest = std::min(moment.smallest, value);
  moment.largest = std::max(moment.largest, value);
}

double SettlingWindow::extent() const {
  double smallest = moments_.front().smallest;
  double largest = moments_.front().largest;
  for (const Moment& moment : moments_) {
    smallest = std::min(smallest, moment.smallest);
    largest = std::max(largest, moment.largest);
  }
  return largest - smallest;
}

double SettlingWindow::tolerance() const {
  const Moment& last = moments_.back();
  return std::max(next_to_nothing, settling_.share * std::abs(last.sum / static_cast<double>(last.count)));
}

bool SettlingWindow::is_settled() const {
  if (count() < settling_.agreeing || span() < settling_.least_span) return false;
  if (over_range_) return true;
  const std::optional<double> moves = movement();
  return moves ? std::abs(*moves) <= tolerance() : settling_.least_span.count() == 0;
}

std::size_t SettlingWindow::count() const {
  std::size_t count = 0;
  for (const Moment& moment : moments_) count += moment.count;
  return count;
}

std::chrono::milliseconds SettlingWindow::span() const {
  if (moments_.empty()) return {};
  return std::chrono::duration_cast<std::chrono::milliseconds>(moments_.back().last - moments_.front().first);
}

/// The slope of the straight line through the moments' means by least squares, times the outlook.
std::optional<double> SettlingWindow::movement() const {
  if (moments_.size() < 2 || over_range_) return std::nullopt;
  const auto n = static_cast<double>(moments_.size());
  double mean_time = 0.0;
  double mean_value = 0.0;
  for (const Moment& moment : moments_) {
    mean_time += seconds_between(moments_.front().first, moment.first) / n;
    mean_value += moment.sum / static_cast<double>(moment.count) / n;
  }
  double squares = 0.0;
  double products = 0.0;
  for (const Moment& moment : moments_) {
    const double time = seconds_between(moments_.front().first, moment.first) - mean_time;
    squares += time * time;
    products += time * (moment.sum / static_cast<double>(moment.count) - mean_value);
  }
  return products / squares * std::chrono::duration<double>(settling_.outlook).count();
}

}  // namespace ohmwright::instrument
