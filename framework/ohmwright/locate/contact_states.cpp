#include <algorithm>

#include <ohmwright/locate/contact_states.hpp>

namespace ohmwright::locate {

namespace {

/// A contact that is jarred, or moved without anybody's saying so, between two readings (assumed).
constexpr double moved_unseen = 0.02;

/// How the outcome has the contact; null where it leaves that open to question.
const StandingContact* state_in(const PredictedOutcome& outcome, std::uint64_t source) {
  const auto named = std::find_if(outcome.contacts.begin(), outcome.contacts.end(),
                                  [source](const StandingContact& one) { return one.source == source; });
  return named == outcome.contacts.end() ? nullptr : &*named;
}

}  // namespace

const ContactStates::Known* ContactStates::find(std::uint64_t source) const {
  const auto known = std::find_if(known_.begin(), known_.end(), [&](const Known& k) { return k.source == source; });
  return known == known_.end() ? nullptr : &*known;
}

/// Of being open or closed.
double ContactStates::probability_of(const StandingContact& state) const {
  const Known* const known = find(state.source);
  if (known == nullptr) return state.share;
  return state.is_open ? known->open : 1.0 - known->open;
}

/// Of its resistance, if it is closed.
double ContactStates::probability_of_ohm(const StandingContact& state) const {
  const Known* const known = find(state.source);
  if (known == nullptr) return state.share_of_ohm;
  const auto same =
      std::find_if(known->ohms.begin(), known->ohms.end(), [&](const Ohms& one) { return one.ohm == state.ohm; });
  return same == known->ohms.end() ? state.share_of_ohm : same->probability;
}

void ContactStates::forget(std::uint64_t source) {
  const auto known = std::find_if(known_.begin(), known_.end(), [&](const Known& k) { return k.source == source; });
  if (known != known_.end()) known_.erase(known);
}

bool ContactStates::speaks_of(const PredictedOutcome& outcome) const {
  return std::any_of(outcome.contacts.begin(), outcome.contacts.end(),
                     [this](const StandingContact& state) { return find(state.source) != nullptr; });
}

double ContactStates::weight_of(const PredictedOutcome& outcome) const {
  double weight = outcome.weight;
  for (const StandingContact& state : outcome.contacts)
    weight *= probability_of(state) / state.share * probability_of_ohm(state) / state.share_of_ohm;
  return weight;
}

void ContactStates::learn(std::span<const PredictedOutcome> outcomes, std::span<const double> meant, double misread) {
  boost::container::small_vector<Known, 4> learnt;
  for (const PredictedOutcome& outcome : outcomes)
    for (const StandingContact& contact : outcome.contacts) {
      const bool is_done =
          std::any_of(learnt.begin(), learnt.end(), [&](const Known& known) { return known.source == contact.source; });
      if (!is_done)
        learnt.push_back({contact.source, open_after(contact, outcomes, meant, misread),
                          ohms_after(contact, outcomes, meant, misread)});
    }
  for (Known& one : learnt) {
    const auto known =
        std::find_if(known_.begin(), known_.end(), [&](const Known& k) { return k.source == one.source; });
    if (known == known_.end())
      known_.push_back(std::move(one));
    else
      *known = std::move(one);
  }
}

double ContactStates::open_after(const StandingContact& contact, std::span<const PredictedOutcome> outcomes,
                                 std::span<const double> meant, double misread) const {
  const double usual = contact.is_open ? contact.share : 1.0 - contact.share;
  if (usual <= 0.0 || usual >= 1.0) return usual;  // it is never the other way, whoever moves it
  const double before = probability_of({contact.source, true, usual});
  double all = misread;
  double open = misread * before;
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    const StandingContact* const named = state_in(outcomes[i], contact.source);
    all += meant[i];
    // A way that leaves the contact open to question tells nothing of it.
    open += meant[i] * (named == nullptr ? before : named->is_open ? 1.0 : 0.0);
  }
  if (!(all > 0.0)) return before;
  return contact.moves_unseen ? std::clamp(open / all, moved_unseen, 1.0 - moved_unseen) : open / all;
}

ContactStates::AllOhms ContactStates::ohms_after(const StandingContact& contact,
                                                 std::span<const PredictedOutcome> outcomes,
                                                 std::span<const double> meant, double misread) const {
  AllOhms after;
  AllOhms usual;
  double told = 0.0;  // by ways that name a resistance of it
  double not_told = misread;
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    const StandingContact* const named = state_in(outcomes[i], contact.source);
    if (named == nullptr) not_told += meant[i];
    if (named == nullptr || named->is_open || named->share_of_ohm >= 1.0) continue;
    auto same = std::find_if(after.begin(), after.end(), [&](const Ohms& one) { return one.ohm == named->ohm; });
    if (same == after.end()) {
      usual.push_back({named->ohm, named->share_of_ohm});
      same = after.insert(after.end(), {named->ohm, 0.0});
    }
    same->probability += meant[i];
    told += meant[i];
  }
  const double closed =
      1.0 - probability_of({contact.source, true, contact.is_open ? contact.share : 1.0 - contact.share});
  const double all = told + closed * not_told;
  for (std::size_t i = 0; i < after.size(); ++i) {
    StandingContact state = contact;
    state.ohm = usual[i].ohm;
    state.share_of_ohm = usual[i].probability;
    const double before = probability_of_ohm(state);
    const double now = all > 0.0 ? (after[i].probability + closed * not_told * before) / all : before;
    after[i].probability = (1.0 - moved_unseen) * now + moved_unseen * usual[i].probability;
  }
  return after;
}

}  // namespace ohmwright::locate
