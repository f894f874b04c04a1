#include <algorithm>
#include <cmath>
#include <vector>

#include <ohmwright/locate/loose_contact.hpp>

namespace ohmwright::locate {

namespace {

constexpr double share_of_ohms = 0.3;  ///< of the readings while it is bad; the others are OL (assumed, no source)
constexpr int loose_cells = 2;  ///< two decades each: every one is a state more for each such contact to be solved in

bool is_open_choice(const ElementChoice& choice) { return choice.type == ElementType::open; }

/// Mean of what it has while it is good [ohm].
double mean_of_good_ohm(const std::vector<ElementChoice>& choices) {
  double sum = 0.0;
  double weight = 0.0;
  for (const ElementChoice& choice : choices) {
    if (is_open_choice(choice)) continue;
    sum += choice.weight * choice.value_in_si;
    weight += choice.weight;
  }
  return sum / weight;
}

}  // namespace

void add_ohms_of_loose_contact(ElementSpread& contact) {
  std::vector<ElementChoice>& choices = contact.choices;
  const auto open = std::find_if(choices.begin(), choices.end(), is_open_choice);
  if (!contact.is_contact || open == choices.end() || choices.size() < 2) return;
  const double good = mean_of_good_ohm(choices);
  const double share = share_of_ohms * open->weight / loose_cells;
  open->weight *= 1.0 - share_of_ohms;
  const double width = std::log(most_loose_ohm / least_loose_ohm) / loose_cells;
  for (int i = 0; i < loose_cells; ++i) {
    // A good part's own tolerance is small beside that, where what is added counts at all.
    const double least = good + least_loose_ohm * std::exp(i * width);
    const double most = good + least_loose_ohm * std::exp((i + 1) * width);
    choices.push_back({share, ElementType::resistance, std::sqrt(least * most),
                       std::log(most / least) / std::sqrt(12.0), 0.0, 0.0, true});
  }
}

}  // namespace ohmwright::locate
