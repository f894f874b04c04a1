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
  boost::container::small_vector<Known, 4> learnt;
  for (const PredictedOutcome& outcome : outcomes)
    for (const StandingContact& contact : outcome.contacts) {
      const bool is_done =
          std::any_of(learnt.begin(), learnt.end(), [&](const Known& known) { return known.source == contact.source; });
      if (!is_done) learnt.push_back({contact.source, open_after(contact, outcomes, meant, misread)});
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

double ContactStates::open_after(const StandingContact& contact, std::span<const PredictedOutcome> outcomes,
                                 std::span<const double> meant, double misread) const {
  const double before = share_of({contact.source, true, contact.is_open ? contact.share : 1.0 - contact.share});
  double all = misread;
  double open = misread * before;
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    const auto& contacts = outcomes[i].contacts;
    const auto named = std::find_if(contacts.begin(), contacts.end(),
                                    [&](const StandingContact& one) { return one.source == contact.source; });
    all += meant[i];
    // A way that leaves the contact open to question tells nothing of it.
    open += meant[i] * (named == contacts.end() ? before : named->is_open ? 1.0 : 0.0);
  }
  return all > 0.0 ? std::clamp(open / all, moved_unseen, 1.0 - moved_unseen) : before;
}

}  // namespace ohmwright::locate
