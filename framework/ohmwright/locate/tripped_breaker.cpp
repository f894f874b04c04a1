// Readings state by state of the contacts that waver, and what is left of them behind a breaker that has tripped.

#include <ohmwright/circuit/loop_refusal.hpp>
#include <ohmwright/locate/probed_scene.hpp>

namespace ohmwright::locate {

namespace {

/// Combinations of wavering contacts below this probability are left out.
constexpr double least_weight = 1e-3;

}  // namespace

/// What a meter shows on a circuit whose breaker has tripped: no more than strays into any wire that nothing feeds, and
/// so no less likely what another dead wire shows.
PredictedOutcome Prober::ProbedScene::on_a_dead_circuit(double weight) const {
  PredictedOutcome outcome{weight, PredictedOutcome::Form::value, 0.0, stray_on_scale(stray_volts(false)), {}};
  outcome.breaker_tripped = true;
  return outcome;
}

void Prober::ProbedScene::read_in_every_state(const Place& place, std::vector<PredictedOutcome>& outcomes) {
  const std::size_t settled = changes_.size();
  for (;;) {  // every combination of the wavering contacts' states
    double weight = 1.0;
    for (const Wavering& contact : wavering_) {
      const ElementChoice& choice = contact.element->choices[contact.choice];
      weight *= choice.weight;
      take(*contact.element, choice, false);
      sources_[contact.element->branch] = choice.is_anew ? 0 : contact.of_value;
    }
    const std::size_t of_other_states = outcomes.size();
    if (weight >= least_weight) read_hot_or_cold(place, weight, outcomes);
    for (std::size_t i = of_other_states; i < outcomes.size(); ++i) note_contacts(outcomes[i]);
    changes_.resize(settled);
    std::size_t next = 0;
    while (next < wavering_.size() && ++wavering_[next].choice == wavering_[next].element->choices.size())
      wavering_[next++].choice = 0;
    if (next == wavering_.size()) return;
  }
}

void Prober::ProbedScene::note_contacts(PredictedOutcome& outcome) const {
  const auto is_open = [](const ElementChoice& choice) { return choice.type == ElementType::open; };
  for (const Wavering& contact : wavering_) {
    if (contact.source == 0 || outcome.contacts.size() == PredictedOutcome::most_contacts) continue;
    const ElementChoice& taken = contact.element->choices[contact.choice];
    StandingContact state{contact.source, is_open(taken), 0.0};
    for (const ElementChoice& choice : contact.element->choices)
      if (is_open(choice) == state.is_open) state.share += choice.weight;
    if (!state.is_open) {
      state.ohm = taken.value_in_si;
      state.share_of_ohm = taken.weight / state.share;
    }
    outcome.contacts.push_back(state);
  }
}

/// Whether the breaker has tripped, for all test points of a group at once; what wavers is decided state by state.
bool Prober::ProbedScene::is_tripped(Group& group) {
  if (!may_trip_ || scene_.excitation() == Excitation::ohmmeter || !wavering_.empty()) return false;
  const auto [at, is_new] = group.tripped.try_emplace(circumstances(), false);
  if (is_new) {
    try {
      at->second = trips(group);
    } catch (const circuit::LoopOfSources&) {  // a supply that is bridged without any resistance trips it, too
      at->second = true;
    }
  }
  may_trip_ = false;
  return at->second;
}

/// A dead short across the supply has no reading: the breaker has tripped, and a meter shows near nothing.
void Prober::ProbedScene::read_or_trip(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  try {
    if (!trips(*place.group)) return read(place, weight, outcomes);
  } catch (const circuit::LoopOfSources&) {  // as above
  }
  outcomes.push_back(on_a_dead_circuit(weight));
}

bool Prober::ProbedScene::trips(Group& group) const {
  if (!may_trip_ || scene_.excitation() == Excitation::ohmmeter) return false;
  if (!group.around_supply) {
    const auto hertz = Frequency::from_value(appliance_.supply.frequency.value.value_in_si());
    const std::vector<circuit::BranchIndex> supply{scene_.supply()};
    group.around_supply.emplace(scene_.network(), hertz, supply, changes_of(group));
  }
  const std::optional<circuit::CurrentPhasor> amperes = group.around_supply->with(changes_).reading(0);
  return amperes && circuit::magnitude(*amperes).value() > breaker_amperes;
}

}  // namespace ohmwright::locate
