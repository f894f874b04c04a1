#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

namespace ohmwright::bimetal_thermostat {

/// A contact seen at a temperature.
struct ContactSample {
  bool closed = false;
  double kelvin = 0.0;
  double half_width = 0.0;  ///< of the temperature's error limits [K]
  std::size_t index = 0;    ///< of the reading it was taken from
  /// How far this temperature and that of the sample before it may lie apart and be the same [K]: nothing where one
  /// thermometer's error is in both.
  double doubt_of_step = 0.0;
};

/// What a change of the contact between two readings is worth.
enum class PassageWorth : std::uint8_t {
  good,
  /// So far apart that the temperature may have gone anywhere between: a part that was read open on the bench, frozen
  /// and read closed on its way up did not close between those two.
  far_apart,
  /// It opened while the thermometer fell, or closed while it rose: the order of the readings is wrong, or part and
  /// thermometer were far apart.
  backwards,
  /// It changed at one and the same temperature, and nothing led up to it: a contact that comes and goes, or a reading
  /// to repeat.
  no_change_of_temperature,
};

/// A contact changed between two samples that followed one another.
struct Passage {
  bool opens = false;  ///< else it closes
  ContactSample before;
  ContactSample after;
  PassageWorth worth = PassageWorth::good;

  double colder() const { return before.kelvin < after.kelvin ? before.kelvin : after.kelvin; }
  double warmer() const { return before.kelvin < after.kelvin ? after.kelvin : before.kelvin; }
};

/// Finds trip points in samples that come in the order of time: last state before, first state after.
///
/// A change is a trip point where the temperature led up to it: the part had warmed before it opened, or cooled before
/// it closed, in that step or in those before it in which the contact held. Else, and where the two temperatures are
/// the same within their doubt, the contact changed by itself.
class TripFinder {
 public:
  /// The change that came with this sample, if one did.
  std::optional<Passage> take(const ContactSample& sample);

 private:
  bool led_up_to(const ContactSample& sample) const;

  std::optional<ContactSample> last_;
  double coldest_ = 0.0;  ///< since the contact took the state it has [K]
  double warmest_ = 0.0;
};

/// Farther apart than this, two readings are no step of a series (ours) [K].
inline constexpr double widest_step_kelvin = 5.0;
/// A thermometer that stands still wobbles by as much between two readings (ours) [K].
inline constexpr double wobble_kelvin = 0.3;
/// Two temperatures noted to the tenth of a kelvin are the same if they differ by no more (ours) [K].
inline constexpr double step_of_notes_kelvin = 0.1;

}  // namespace ohmwright::bimetal_thermostat
