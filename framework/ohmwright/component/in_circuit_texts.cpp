#include <array>
#include <vector>

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {

namespace {

struct InCircuitRow {
  TextIndex text = InCircuitText::first_own;
  std::string_view id;
  std::string_view InCircuitWording::*own = nullptr;  ///< null: the same for every kind
  std::string_view english;                           ///< empty: the kind has to give it
};

constexpr std::array<InCircuitRow, InCircuitText::first_own> in_circuit_rows{{
    {InCircuitText::everything_between_probes, "everything-between-probes",
     &InCircuitWording::everything_between_probes, ""},
    {InCircuitText::high_not_proved, "high-not-proved", &InCircuitWording::high_not_proved,
     OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most. A charged capacitor or a "
                    "powered board can do that too: prove the points dead, then swap the probes and read again.")},
    {InCircuitText::swapped_differ, "swapped-differ", &InCircuitWording::swapped_differ,
     OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, but something else with the "
                    "probes swapped, which no such part does: volts stand on the points, or a semiconductor lies "
                    "beside it, or a contact comes and goes. Prove the points dead and read it alone, a lead off.")},
    {InCircuitText::right_alone, "right-alone", &InCircuitWording::right_alone,
     OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, though it was read alone "
                    "too, and that counts: look at the lead, splice or connector between it and the probes.")},
    {InCircuitText::right_where_unstated, "right-where-unstated", &InCircuitWording::right_where_unstated,
     OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, but another time it did not, "
                    "and of that reading it was not said whether a lead was off. If one was, look at the lead, splice "
                    "or connector between it and the probes; if none was, a contact comes and goes.")},
    {InCircuitText::low_means_nothing, "low-means-nothing", &InCircuitWording::low_means_nothing,
     OHMWRIGHT_TEXT("In circuit it reads too low, which decides nothing: another path lies beside it. Lift one of "
                    "its leads and read again.")},
    {InCircuitText::clears_nothing, "clears-nothing", &InCircuitWording::clears_nothing, ""},
    {InCircuitText::beside_others, "beside-others", &InCircuitWording::beside_others,
     OHMWRIGHT_TEXT("In circuit other parts lie beside it; what it reads alone is what counts.")},
    {InCircuitText::not_comparable, "not-comparable", &InCircuitWording::not_comparable,
     OHMWRIGHT_TEXT("A reading in circuit without ratings has nothing to be compared with.")},
    {InCircuitText::no_in_circuit, "no-in-circuit", nullptr,
     OHMWRIGHT_TEXT("Not judged: no reading was taken in circuit.")},
    {InCircuitText::only_live, "only-live", nullptr,
     OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
}};

constexpr bool in_order_of_their_names() {
  for (std::size_t i = 0; i < in_circuit_rows.size(); ++i)
    if (in_circuit_rows[i].text != i) return false;
  return true;
}
static_assert(in_order_of_their_names(), "a finding names a text by its place");

}  // namespace

RuleDescriptor in_circuit_rule(const InCircuitWording& wording, std::initializer_list<TextEntry> own) {
  RuleDescriptor rule{"in-circuit",
                      OHMWRIGHT_TEXT("Readings in circuit"),
                      false,
                      can_condemn | can_be_undecided,
                      "Kirchhoff: a passive path beside a part can only lower the resistance at its own terminals",
                      {}};
  for (const InCircuitRow& row : in_circuit_rows) {
    const std::string_view by_kind = row.own == nullptr ? std::string_view() : wording.*row.own;
    rule.texts.push_back({row.id, by_kind.empty() ? row.english : by_kind});
  }
  rule.texts.insert(rule.texts.end(), own);
  return rule;
}

}  // namespace ohmwright
