#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/quantity/observed.hpp>

namespace ohmwright::locate {

/// An error that a reading shares with others: how far a part lies from the middle of its tolerance, the meter's gain,
/// the test leads.
struct SharedError {
  std::uint64_t source = 0;
  double share = 0.0;  ///< of the reading, on the scale, for one standard deviation of the source; with its sign
};

/// How an ohmmeter's reading follows one branch whose tolerance is so wide that no straight line does: with x times its
/// middle resistance, (p + q x) / (1 + s x).
///
/// Source: any resistance between two nodes depends in this way on one branch, H. W. Bode, Network Analysis and
/// Feedback Amplifier Design (1945), chapter 1 (from memory).
struct Bend {
  std::uint64_t source = 0;  ///< whose error the branch's tolerance is
  double spread = 0.0;       ///< of the branch's resistance, one standard deviation as a natural logarithm
  double p = 0.0;            ///< the reading with the branch bridged [ohm]
  double q = 0.0;            ///< [ohm]
  double s = 0.0;

  /// What a deviation of the source adds to the reading, and how steeply there [on the scale of ohms].
  double added_at(double deviation) const;
  double slope_at(double deviation) const;
};

/// The bend through three readings [ohm]: with the branch one standard deviation below its middle, in its middle, and
/// one above; nothing where they are so alike that there is none.
std::optional<Bend> bend_through(std::uint64_t source, double spread, double below, double middle, double above);

/// A contact that may be either way, and stays so from reading to reading; or a set-up that took ("closed") or did not.
struct StandingContact {
  std::uint64_t source = 0;  ///< which contact
  bool is_open = false;
  double share = 1.0;         ///< of such contacts that are so, if nothing was read yet [0…1]
  double ohm = 0.0;           ///< of a closed one
  double share_of_ohm = 1.0;  ///< of such contacts that are closed, those of that resistance [0…1]
  bool moves_unseen = true;   ///< nobody vouches for its being the same at the next reading
};

/// One way a reading may come out.
struct PredictedOutcome {
  enum class Form : std::uint8_t {
    value,       ///< about `mean` on the scale
    over_range,  ///< no way between the probes, or more than the meter shows
    floating,    ///< a conductor that hangs in the air: any ghost voltage
  };

  double weight = 1.0;  ///< probability of this way [0…1]
  Form form = Form::value;
  double mean = 0.0;         ///< on the probe's `Scale`
  double uncertainty = 0.0;  ///< standard, on the scale

  static constexpr std::size_t most_shared = 6;
  static constexpr std::size_t most_bends = 2;
  /// Parts of `uncertainty`, the largest ones, and what each bend leaves.
  boost::container::static_vector<SharedError, most_shared + most_bends> shared{};
  // Most have neither, and there are very many: no room is kept for them.
  std::vector<Bend> bends{};  ///< of those `shared` that are so wide, at most `most_bends`
  static constexpr std::size_t most_contacts = 4;
  std::vector<StandingContact> contacts{};  ///< that stand so in this way, at most `most_contacts` and the set-up
  bool breaker_tripped = false;             ///< nothing is fed, for a fault shorts the supply
};

/// What a deviation of a source that it shares adds to an outcome, and how steeply there [on the scale].
double added_at(const PredictedOutcome& outcome, const SharedError& error, double deviation);
double slope_at(const PredictedOutcome& outcome, const SharedError& error, double deviation);

/// Whether the breaker has most likely tripped when this is read.
bool is_behind_tripped_breaker(std::span<const PredictedOutcome> outcomes);

/// Whether no meter tells the two apart: the same ways, with the same shares, at the same places and as wide.
bool look_alike(std::span<const PredictedOutcome> a, std::span<const PredictedOutcome> b);

/// Outcomes nearer than this on the scale are read as one.
inline constexpr double told_apart = 0.02;

/// What an instrument showed, as it is compared with predictions.
struct SeenReading {
  enum class Form : std::uint8_t { value, over_range, conducts, does_not_conduct, between };

  Form form = Form::value;
  double at = 0.0;  ///< on the scale, the test leads' resistance subtracted; of `between` the lower end
  double to = 0.0;  ///< of `between`: the upper end
  /// Of `over_range`: what it is more than, on the scale; empty: more than any meter shows.
  std::optional<double> past = {};
  double uncertainty = 0.0;  ///< of `value`: standard, on the scale, past what predictions have of the meter
  double of_repeat = 0.0;    ///< of `value`: standard, on the scale, from one reading to its repeat
};

/// The most that a reading's own digits can tell apart, and what is assumed of instruments and people.
struct ReadingModel {
  double misread_share = 0.01;    ///< of all readings: wrong digits, wrong terminal, poor contact (assumed)
  double damp_share = 0.02;       ///< of open paths: damp or dirt reads as megohms instead (assumed)
  double over_range_share = 0.3;  ///< of misreadings: OL (assumed)
  double least_uncertainty = 0.01;
  double same_slip_again = 0.1;  ///< of misreadings: the slip is made again when the reading is repeated (assumed)
  /// That a set-up did not take, so that the reading is one as found: the shaft not turned as far as the click. One
  /// whose temperature a thermometer has to confirm is missed more rarely. (Both assumed.)
  double set_up_missed = 0.05;
  double temperature_missed = 0.01;
  double conducts_below = 50.0;  ///< what a continuity buzzer calls closed [ohm] (common practice, no source)
};

/// Standard uncertainty, on the scale of volts, of a wire that nothing feeds, into which at most so many stray [V].
double stray_on_scale(double volts);

/// Where a ghost voltage most likely reads, on the scale of volts.
double ghost_voltage_on_scale();
/// And how far about that, a standard uncertainty on the scale: nearly anything below the supply.
inline constexpr double ghost_spread_on_scale = 1.3;

/// Probability of the seen reading, of a density on the scale for a value, if it comes out in one of these ways and is
/// not misread.
double likelihood(std::span<const PredictedOutcome> outcomes, const SeenReading& seen, Probe probe,
                  const ReadingModel& model);

/// The same of one way alone, its weight left aside.
double likelihood(const PredictedOutcome& outcome, const SeenReading& seen, Probe probe, const ReadingModel& model);

/// The same of a misreading, whatever was there.
double likelihood_if_misread(const SeenReading& seen, Probe probe, const ReadingModel& model);

}  // namespace ohmwright::locate
