#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include <ohmwright/locate/answer_classes.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/learnt.hpp>
#include <ohmwright/locate/normal.hpp>

namespace ohmwright::locate {

namespace {

constexpr std::size_t most_asked = 300;      ///< instances
constexpr double width_of_a_cell = 0.04;     ///< on the scale: 4 % of a value
constexpr double least_cell = 1e-7;          ///< probability below which a cell is left out
constexpr double least_class = 2e-3;         ///< and a class of them
constexpr double telling = 0.01;             ///< what keeps two classes apart though there is room [bit]
constexpr double far_apart = 0.7;            ///< a gap on the scale past which two classes are not thought of as one
constexpr double price_of_a_far_gap = 0.02;  ///< [bit]
constexpr double left_at_each_end = 0.0025;  ///< share of a class that its range leaves out
constexpr double standard_deviations = 4.0;  ///< as far as a prediction reaches

double normal_share(double from, double to, double mean, double u) {
  return normal_probability_below(to, mean, u) - normal_probability_below(from, mean, u);
}

/// Probability by class of answer: which parts are at fault, and which outside cause.
using Shares = std::vector<double>;

double sum_of(const Shares& shares) { return std::accumulate(shares.begin(), shares.end(), 0.0); }

/// Entropy times probability [bit].
double weighed_entropy(const Shares& shares) {
  const double sum = sum_of(shares);
  double bits = 0.0;
  for (const double share : shares)
    if (share > 0.0) bits -= share * std::log2(share / sum);
  return bits;
}

/// Cells that were joined.
struct Segment {
  std::vector<std::pair<long, double>> cells;  ///< index and probability, rising
  Shares shares;
};

double loss_of_joining(const Segment& a, const Segment& b) {
  Shares both = a.shares;
  for (std::size_t i = 0; i < both.size(); ++i) both[i] += b.shares[i];
  const double gap = static_cast<double>(b.cells.front().first - a.cells.back().first - 1) * width_of_a_cell;
  return weighed_entropy(both) - weighed_entropy(a.shares) - weighed_entropy(b.shares) +
         (gap > far_apart ? price_of_a_far_gap : 0.0);
}

constexpr double never = std::numeric_limits<double>::infinity();

/// `parted_at`: the first cell of those that are never joined with what lies below them, as long as there is room for
/// two classes.
void join(std::vector<Segment>& segments, std::size_t most, std::optional<long> parted_at) {
  const auto loss = [&](const Segment& a, const Segment& b) {
    const bool is_apart =
        most > 1 && parted_at && a.cells.back().first < *parted_at && b.cells.front().first >= *parted_at;
    return is_apart ? never : loss_of_joining(a, b);
  };
  std::vector<double> losses;  // of joining each with the one behind it
  for (std::size_t i = 0; i + 1 < segments.size(); ++i) losses.push_back(loss(segments[i], segments[i + 1]));
  while (!losses.empty()) {
    const auto best = static_cast<std::size_t>(std::min_element(losses.begin(), losses.end()) - losses.begin());
    if (losses[best] == never || (segments.size() <= most && losses[best] > telling)) return;
    Segment& into = segments[best];
    const Segment& from = segments[best + 1];
    into.cells.insert(into.cells.end(), from.cells.begin(), from.cells.end());
    for (std::size_t i = 0; i < into.shares.size(); ++i) into.shares[i] += from.shares[i];
    segments.erase(segments.begin() + static_cast<std::ptrdiff_t>(best) + 1);
    losses.erase(losses.begin() + static_cast<std::ptrdiff_t>(best));
    if (best > 0) losses[best - 1] = loss(segments[best - 1], segments[best]);
    if (best < losses.size()) losses[best] = loss(segments[best], segments[best + 1]);
  }
}

/// The ends of a class on the scale, its thin tails left out.
SeenReading range_of(const Segment& segment) {
  const double tail = left_at_each_end * sum_of(segment.shares);
  const auto end_of = [tail](auto first, auto last) {
    double passed = 0.0;
    while (std::next(first) != last && passed + first->second < tail) passed += (first++)->second;
    return first->first;
  };
  const long low = end_of(segment.cells.begin(), segment.cells.end());
  const long high = end_of(segment.cells.rbegin(), segment.cells.rend());
  SeenReading range;
  range.form = SeenReading::Form::between;
  range.at = static_cast<double>(low) * width_of_a_cell;
  range.to = static_cast<double>(high + 1) * width_of_a_cell;
  return range;
}

class Cells {
 public:
  Cells(Reasoner& reasoner, const Measurement& measurement) : reasoner_(reasoner) {
    const std::vector<Reasoner::Weighed> likeliest = reasoner.likeliest(most_asked);
    for (const Reasoner::Weighed& weighed : likeliest) class_of(weighed.instance);
    over_range_.resize(classes_.size());
    double asked = 0.0;  // those that are not asked are taken to answer like those that are
    for (const Reasoner::Weighed& weighed : likeliest) asked += weighed.probability;
    for (const Reasoner::Weighed& weighed : likeliest) {
      const std::vector<PredictedOutcome>& predicted = reasoner.predicted(weighed.instance, measurement);
      for (const PredictedOutcome& outcome : reasoner.learnt(weighed.instance).expected(predicted))
        add(outcome, weighed.probability / asked * outcome.weight, class_of(weighed.instance));
    }
  }

  double over_range() const { return sum_of(over_range_); }

  std::vector<Segment> segments() const {
    std::vector<Segment> all;
    for (const auto& [index, shares] : cells_)
      if (const double sum = sum_of(shares); sum >= least_cell) all.push_back({{{index, sum}}, shares});
    return all;
  }

 private:
  std::size_t class_of(std::size_t instance) {
    return classes_.try_emplace(reasoner_.faults().answer_of(*reasoner_.instance(instance).candidate), classes_.size())
        .first->second;
  }

  void add(const PredictedOutcome& outcome, double probability, std::size_t of_class) {
    if (outcome.form == PredictedOutcome::Form::over_range) {
      over_range_[of_class] += probability;
      return;
    }
    const bool floats = outcome.form == PredictedOutcome::Form::floating;
    const double mean = floats ? ghost_voltage_on_scale() : outcome.mean;
    const double u =
        floats ? ghost_spread_on_scale : std::max(outcome.uncertainty, reasoner_.prober().model().least_uncertainty);
    const long first = std::max(0L, std::lround(std::floor((mean - standard_deviations * u) / width_of_a_cell)));
    const long last = std::max(first, std::lround(std::floor((mean + standard_deviations * u) / width_of_a_cell)));
    for (long cell = first; cell <= last; ++cell) {
      Shares& shares = cells_.try_emplace(cell, classes_.size(), 0.0).first->second;
      // What would read below zero reads zero.
      const double from =
          cell == 0 ? mean - 2.0 * standard_deviations * u : static_cast<double>(cell) * width_of_a_cell;
      shares[of_class] += probability * normal_share(from, static_cast<double>(cell + 1) * width_of_a_cell, mean, u);
    }
  }

  Reasoner& reasoner_;
  std::map<AnswerKey, std::size_t> classes_;
  std::map<long, Shares> cells_;
  Shares over_range_;
};

/// Where it may be energised and where not, steps differ whatever readings tell of the fault. The cell that the limit
/// lies in is on the safe side of it.
std::optional<long> first_cell_to_energise(const Appliance& appliance, const Measurement& measurement) {
  const std::optional<double> least = least_to_energise(appliance, measurement);
  return least ? std::optional(std::lround(std::ceil(*least / width_of_a_cell))) : std::nullopt;
}

}  // namespace

std::vector<AnswerClass> answer_classes(Reasoner& reasoner, const Measurement& measurement, std::size_t most) {
  const Cells cells(reasoner, measurement);
  const double over_range = cells.over_range();
  const bool has_over_range = over_range >= least_class;
  std::vector<Segment> segments = cells.segments();
  join(segments, std::max<std::size_t>(1, most - (has_over_range ? 1 : 0)),
       first_cell_to_energise(reasoner.prober().appliance(), measurement));
  const double meant = 1.0 - reasoner.prober().model().misread_share;
  std::vector<AnswerClass> classes;
  for (const Segment& segment : segments)
    if (sum_of(segment.shares) >= least_class) classes.push_back({range_of(segment), meant * sum_of(segment.shares)});
  if (has_over_range) {
    SeenReading seen;
    seen.form = SeenReading::Form::over_range;
    classes.push_back({seen, meant * over_range});
  }
  return classes;
}

}  // namespace ohmwright::locate
