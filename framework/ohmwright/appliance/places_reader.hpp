#pragma once

#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright {

// The sections of an appliance's file, in the order in which each needs the ones before it. Each adds what is wrong to
// `problems` and reads on. Between source files of this area.

/// Supply, zones and covers.
void read_places(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems);
/// Parts: kinds, ratings, terminals, states.
void read_parts(const ValueNode& root, const Registry& registry, Appliance& appliance, std::vector<Problem>& problems);
/// Test points and set-ups.
void read_work(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems);
/// Outside causes, consequences and codes.
void read_causes(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems);
/// Symptoms of the appliance's own; checks that every caution and symptom named in the file is known to somebody.
void read_words(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems);

/// Index of the node of that name, which is added when it is new.
std::size_t node_named(Appliance& appliance, const std::string& name);

/// Minutes of a duration, or `fallback` where none is stated.
double minutes_in(const ValueNode& object, std::string_view field, double fallback, std::vector<Problem>& problems);

/// The terminal that "part.terminal" names, or nothing, with what is wrong noted at `node`.
std::optional<PartTerminal> terminal_named(const ValueNode& node, const Appliance& appliance,
                                           std::vector<Problem>& problems);

/// What "states" of an entry sets, "part.state" each.
std::vector<SetState> set_states_in(const ValueNode& entry, const Appliance& appliance, std::vector<Problem>& problems);

/// What "temperatures" of an entry brings zones to; as text, or as one of our processes wrote it.
std::vector<SetTemperature> set_temperatures_in(const ValueNode& entry, const Appliance& appliance,
                                                std::vector<Problem>& problems);

/// A value that ohmwright wrote: {"value": 8000, "half_width": 80, "unit": "ohm"}, SI units. Another unit is noted.
std::optional<StatedValue> written_in_si(const ValueNode& object, Dimension dimension, std::vector<Problem>& problems);

/// A state of a part and its value.
std::optional<StateValue> state_named(const std::string& state, const ValueNode& value, const PlacedPart& part,
                                      std::vector<Problem>& problems);

}  // namespace ohmwright
