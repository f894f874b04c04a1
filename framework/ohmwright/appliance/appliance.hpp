#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/component/electrical.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {

// An appliance as its file describes it: names are resolved to indices into these lists, values are read and checked.
// Plain rows, made once by `read_appliance` (appliance_document.hpp) and handed down.

/// A place with one temperature: coil, cabinet, room.
struct Zone {
  std::string id;
  std::string title;
  StatedValue temperature;  ///< as found, unless a set-up or the technician says otherwise
};

/// A panel, a plug or a box that hides parts and test points. Taken off once, it opens the way to all behind it.
struct Cover {
  std::string id;
  std::string title;
  double minutes = 0.0;               ///< to take it off
  std::vector<std::size_t> behind;    ///< covers that must be off before
  std::vector<std::string> cautions;  ///< ids: of the framework, or of any kind of the appliance
};

/// A terminal of a part: the point of the part itself, whatever it is connected to.
struct PartTerminal {
  std::size_t part = 0;
  std::uint16_t terminal = 0;  ///< index into the kind's `Descriptor::terminals`

  friend bool operator==(const PartTerminal&, const PartTerminal&) = default;
};

/// A part in its place. Wires, connectors and splices are parts, too.
struct PlacedPart {
  std::string id;
  std::string title;
  const LoadedKind* kind = nullptr;  ///< of the registry, which outlives the appliance
  std::shared_ptr<const Part> part;
  std::string ratings;  ///< name of the class, for people; empty: unknown or written in the file
  std::string plate;    ///< title of the class, which says what is stamped on such a part; empty likewise
  std::vector<std::optional<std::size_t>> nodes;  ///< by terminal: where it is connected; empty: nowhere
  std::optional<std::size_t> zone;
  std::vector<StateValue> states;     ///< as found, unless a set-up or a reading says otherwise
  double weight = 1.0;                ///< times the weights of its kind's fault modes: a part known to fail often
  std::vector<double> fault_weights;  ///< by fault mode, times those weights too; empty: 1 for each
  double minutes_to_replace = 30.0;
  std::vector<std::size_t> behind;  ///< covers that hide it

  /// What the weight of that fault mode is multiplied by here; 0: it cannot be here.
  double weight_of(std::size_t fault_mode) const {
    return weight * (fault_mode < fault_weights.size() ? fault_weights[fault_mode] : 1.0);
  }
};

/// What an instrument does at a test point.
enum class Probe : std::uint8_t { ohms, volts, amperes };

/// Where one probe goes: a node of the wiring, or a part's own terminal (of which the lead may have been lifted).
struct ProbePlace {
  std::optional<std::size_t> node;
  std::optional<PartTerminal> terminal;
};

/// A place where probes can touch, with what must be uncovered, unplugged or lifted to reach it.
struct TestPoint {
  std::string id;
  std::string title;
  Probe probe = Probe::ohms;
  ProbePlace from;                   ///< for amperes: the part's lead that the clamp is around (`terminal`)
  ProbePlace to;                     ///< unused for amperes
  std::vector<PartTerminal> lifted;  ///< leads that are off while it is read
  std::vector<std::size_t> behind;   ///< covers
  double minutes = 1.0;              ///< once everything is uncovered
  std::vector<std::string> cautions;
};

/// A state of a part that a set-up brings about.
struct SetState {
  std::size_t part = 0;
  StateValue value;
};

/// The ± of a temperature that was stated without one [K], as the kinds assume it of theirs (common practice, no
/// source).
inline constexpr double usual_doubt_kelvin = 1.0;

/// A zone that nobody measured: it may be as its file says, or at any temperature that it has while all is well.
struct TemperatureSpan {
  double from_kelvin = 0.0;
  double to_kelvin = 0.0;
  double share_as_found = 0.5;  ///< probability that it is still as found [0…1] (assumed, no source)

  friend bool operator==(const TemperatureSpan&, const TemperatureSpan&) = default;
};

/// A temperature that a set-up brings about.
struct SetTemperature {
  std::size_t zone = 0;
  StatedValue temperature;  ///< of `as_warm_as`: as the file has that zone, with both doubts
  /// The zone whose temperature it takes, whatever is known of that: a thawed coil that of the room.
  std::optional<std::size_t> as_warm_as = {};
  double within_kelvin = 0.0;  ///< by how much it may differ from `as_warm_as`
  /// Of circumstances that were only stated: nobody had measured the zone.
  std::optional<TemperatureSpan> not_measured = {};
};

/// What is done before a reading: chill, warm, force a defrost, turn a timer.
struct SetUp {
  std::string id;
  std::string title;
  double minutes = 0.0;
  bool live = false;  ///< it needs the supply on: forcing a defrost
  std::vector<SetState> states;
  std::vector<SetTemperature> temperatures;
  std::vector<std::string> steps;
  std::string confirmed_by;  ///< the sign that it took: "the compressor stops, the heater ticks"
  std::string way_out;       ///< how to end it
  std::string source;        ///< where the steps are from
  std::vector<std::size_t> behind;
  std::vector<std::string> cautions;
  /// True of the circumstances that a reading was stated with (appliance_readings.hpp): never offered as a step.
  bool only_stated = false;
  bool cools_down =
      false;  ///< it stood without supply for so long that nothing is warmer than its place by its own heat
  std::optional<std::size_t> based_on;  ///< of those: the set-up before it, in place of the appliance as found
};

/// What a condition or a fault does to something a person can see.
struct SeenSymptom {
  std::string symptom;
  double probability = 0.0;
};

/// A cause that is no part: room outside its climate class, door or gasket, blocked drain or airflow, outlet.
struct OutsideCause {
  std::string id;
  std::string title;
  double weight = 0.0;
  std::string source;
  std::vector<SeenSymptom> symptoms;
  std::string check;           ///< what to look at: "close the door on a slip of paper"
  double minutes = 2.0;        ///< for that look
  bool sealed_system = false;  ///< ends in "stop: licensed refrigerant work"
  bool cuts_supply = false;    ///< the outlet or extension lead is dead: no volts anywhere
  bool overheats = false;      ///< what limits the heat opens by it: no air, no water
};

/// One fault mode of one part.
struct PartFault {
  std::size_t part = 0;
  std::uint16_t fault = 0;  ///< index into the kind's `Descriptor::fault_modes`

  friend bool operator==(const PartFault&, const PartFault&) = default;
};

/// A fault that another brings about: a welded thermostat opens the thermal link, ice stops the fan.
struct Consequence {
  std::optional<PartFault> cause;            ///< or else:
  std::optional<std::size_t> outside_cause;  ///< index into `Appliance::outside_causes`
  PartFault effect;
  double probability = 0.0;  ///< that the effect is there when the cause is [0…1]
};

/// A word of this appliance for something that people see, beside those of component/symptom.hpp.
struct OwnSymptom {
  std::string id;
  std::string title;  ///< "the drum turns and the laundry stays wet"
};

/// What somebody sees of faults of parts that no meter shows: a timer whose shaft stands still.
struct PartLook {
  std::string id;
  std::string title;  ///< of what is found: "timer does not move on by itself"
  std::string check;  ///< what to do, and to look at
  double minutes = 2.0;
  bool runs = false;             ///< it is plugged in and runs meanwhile, its covers on
  std::vector<PartFault> tells;  ///< the faults of which it is seen
};

/// What the control's memory can say.
struct BoardCode {
  std::string code;
  std::string meaning;
  std::string source;  ///< where that meaning is from
  std::vector<PartFault> speaks_of;
};

/// How the supply comes in.
struct MainsSupply {
  StatedValue voltage = parse_stated_value("0 V", Dimension::voltage);
  StatedValue frequency = parse_stated_value("0 Hz", Dimension::frequency);
  std::size_t live = 0;              ///< node
  std::size_t neutral = 0;           ///< node; the other live leg of a two-leg supply
  std::optional<std::size_t> earth;  ///< node of the protective earth, which the supply ties to its neutral
  bool is_assumed = false;           ///< nobody read its plate
};

/// A whole appliance.
struct Appliance {
  std::string id;
  std::string title;
  std::string source;       ///< where the wiring and the figures come from; empty where the file does not say
  std::string market;       ///< "north-america", "europe", …: words and supply
  std::string refrigerant;  ///< as on the label: "flammable", "non-flammable", "none", "unknown"
  MainsSupply supply;
  std::vector<std::string> nodes;  ///< names as in the file
  std::vector<Zone> zones;
  std::vector<Cover> covers;
  std::vector<PlacedPart> parts;
  std::vector<TestPoint> test_points;
  std::vector<SetUp> set_ups;
  std::vector<OwnSymptom> symptoms;
  std::vector<OutsideCause> outside_causes;
  std::vector<PartLook> part_looks;
  std::vector<Consequence> consequences;
  std::vector<BoardCode> codes;
  std::vector<std::string> assumed;  ///< what nobody knew of it and was taken as something, a sentence each
};

}  // namespace ohmwright
