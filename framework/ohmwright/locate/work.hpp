#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/locate/prober.hpp>

namespace ohmwright::locate {

/// Minutes of what is not the appliance's own (common practice, no source).
struct WorkTimes {
  double make_dead = 3.0;  ///< unplug, prove dead, discharge
  double make_live = 2.0;  ///< hands and tools away, plug in, wait
  double test_run = 10.0;  ///< after a part was replaced
};

/// What is off, set up and plugged in at the moment: what the next step costs depends on it.
struct WorkState {
  enum class Power : std::uint8_t { unknown, dead, live };

  std::vector<bool> covers_off;  ///< by cover
  std::optional<std::size_t> set_up;
  Power power = Power::unknown;
};

/// Everything closed, nothing set up, and nobody knows whether it is plugged in.
WorkState work_at_arrival(const Appliance& appliance);

/// Whether the supply must be on.
bool is_live(const Appliance& appliance, const Measurement& measurement);

/// Whether something may heat while it is read: it is live, and its set-up, or one below that, is live or brings a
/// state about, as a timer that was turned by hand before it was plugged in.
bool may_heat(const Appliance& appliance, const Measurement& measurement);

/// Whether the measurement can be asked for: no ohms in a set-up that needs the supply, and nothing in circumstances
/// that a reading was merely stated with.
bool is_possible(const Appliance& appliance, const Measurement& measurement);

/// Minutes from here to having read it [min]: power cut or restored, covers that still hide it (each paid once, ever),
/// the end of another set-up (as long as that took), the set-up, the reading itself.
double minutes_of(const Appliance& appliance, const WorkTimes& times, const WorkState& state,
                  const Measurement& measurement);

/// The state after it.
WorkState after(const Appliance& appliance, WorkState state, const Measurement& measurement);

/// Covers that come off for these, those before first.
std::vector<std::size_t> covers_to_take_off(const Appliance& appliance, const WorkState& state,
                                            const Measurement& measurement);

/// Ids of the cautions that hold for all work on the appliance, whatever was done before: refrigerant, supply, meter.
std::vector<std::string> cautions_of_arrival(const Appliance& appliance);

/// Ids of the cautions of the step, each once: those of cutting or having the supply, of all that hides it, whether or
/// not it is off already, of set-up and test point.
std::vector<std::string> cautions_of(const Appliance& appliance, const WorkState& state,
                                     const Measurement& measurement);

}  // namespace ohmwright::locate
