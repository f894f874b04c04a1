#include <algorithm>

#include <ohmwright/locate/contact_states.hpp>

namespace ohmwright::locate {

namespace {

/// A contact that is jarred, or moved without anybody's saying so, between two readings (assumed).
constexpr double moved_unseen = 0.02;

}  // namespace

double ContactStates::share_of(const StandingContact& state) const {
  const auto known =
      std::find_if(known_.begin(), known_.end(), [&](const Known& k) { return k.source == state.source; });
  if (known == known_.end()) return state.share;
  return state.is_open ? known->open : 1.0 - known->open;
}

double ContactStates::weight_of(const PredictedOutcome& outcome) const {
  double weight = outcome.weight;
  for (const StandingContact& state : outcome.contacts) weight *= share_of(state) / state.share;
  return weight;
}

void ContactStates::learn(std::span<const PredictedOutcome> outcomes, std::span<const double> meant, double misread) {
  if (outcomes.empty() || outcomes.front().contacts.empty()) return;
  std::vector<Known> learnt;
  for (const StandingContact& contact : outcomes.front().contacts) {
    const double before = share_of({contact.source, true, contact.is_open ? contact.share : 1.0 - contact.share});
    double all = misread;
    double open = misread * before;
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      all += meant[i];
      for (const StandingContact& state : outcomes[i].contacts)
        if (state.source == contact.source && state.is_open) open += meant[i];
    }
    if (all > 0.0) learnt.push_back({contact.source, std::clamp(open / all, moved_unseen, 1.0 - moved_unseen)});
  }
  for (const Known& one : learnt) {
    const auto known =
        std::find_if(known_.begin(), known_.end(), [&](const Known& k) { return k.source == one.source; });
    if (known == known_.end())
      known_.push_back(one);
    else
      *known = one;
  }
}

}  // namespace ohmwright::locate
