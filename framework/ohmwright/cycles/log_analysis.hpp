#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/log_outline.hpp>
#include <ohmwright/cycles/log_row.hpp>

namespace ohmwright::cycles {

class LogReader;

/// A rated value with the limits of good parts, SI unit in the name of what holds it.
struct RatedBand {
  double nominal = 0.0;
  double lower = 0.0;
  double upper = 0.0;
};

/// What is known of the appliance and of its parts; each figure may be missing.
struct LogRatings {
  std::optional<double> line_volt;       ///< turns a current into a power
  double line_half_width_volt = 0.0;     ///< doubt of it, rectangular
  std::optional<RatedBand> heater_watt;  ///< what the heater draws at `heater_volt`
  double heater_volt = 0.0;
  std::optional<double> end_temperature_kelvin;  ///< at which control or thermostat ends a defrost
  double end_temperature_tolerance_kelvin = 3.0;
  std::optional<double> time_limit_second;        ///< at which the control ends a defrost
  std::optional<double> time_limit_least_second;  ///< where ratings give a range: the earliest
  std::optional<double> interval_least_second;    ///< between the starts of two defrosts
  std::optional<double> interval_most_second;
  bool interval_counts_running = false;  ///< both in run time of the compressor, not by the clock
  /// Share of the heater's power that melts frost while the coil stays at the melting point, and its standard
  /// uncertainty. Assumed where nobody measured it.
  double melting_share = 0.6;
  double melting_share_uncertainty = 0.1;
  /// Relative standard uncertainty of the log's power; that of a plug-in meter, common practice, no source.
  double power_uncertainty_ratio = 0.02;
};

/// A threshold that was used, with the log's own figure that it follows from.
struct LogThreshold {
  std::string_view id;  ///< "compressor_on_watt", "heater_watt", "coil_excursion_kelvin", …
  double value = 0.0;
};

/// One run of the compressor, times [s] since the first row.
struct CompressorRun {
  double start_second = 0.0;
  double end_second = 0.0;
  float mean_load = 0.0F;     ///< [W], or [A] of a log of current; 0 where it was found in a temperature
  bool start_is_seen = true;  ///< false: it ran already when the log, or the log after a gap, began
  bool end_is_seen = true;
};

/// A plateau of less than this share of the heating: the melting had hardly begun (common practice, no source).
inline constexpr double hardly_melted_share = 0.2;

/// What ended a defrost.
enum class EndCause : std::uint8_t { temperature, time_limit, unknown };
std::string_view name_of(EndCause cause);

/// What the cause was told by.
enum class EndGround : std::uint8_t {
  nothing,             ///< the log cannot show it
  rated_temperature,   ///< the coil was at its rated end temperature
  rated_time,          ///< it lasted for the rated time limit
  still_melting,       ///< the coil was not warmer than melting ice
  below_rated,         ///< the coil was warmer than ice and colder than its rated end temperature
  past_rated,          ///< the coil was warmer than its rated end temperature, and heating went on
  past_melting,        ///< the coil had risen well past the melting point
  equal_temperatures,  ///< defrosts of this log end at one coil temperature and last differently long
  equal_durations,     ///< defrosts of this log that were the longest lasted equally long
  unequal_durations,   ///< defrosts of this log last differently long
};
std::string_view name_of(EndGround ground);

/// A mass of frost with its standard uncertainty [kg].
struct FrostMass {
  double kilogram = 0.0;
  double uncertainty_kilogram = 0.0;
};

/// One defrost. Times are [s] since the first row.
struct Defrost {
  double start_second = 0.0;  ///< heater on, or the coil's rise where no power tells
  double end_second = 0.0;    ///< heater off, or the coil's peak
  bool heater_is_seen = false;
  bool rise_is_seen = false;  ///< the coil's temperature, or where there is none the cabinet's, rose
  bool has_coil = false;      ///< the coil was logged during it; `rise_is_seen` false then means: heat and no rise
  bool has_load = false;      ///< the load was logged during it; `heater_is_seen` false then means: none drew
  bool is_cut = false;        ///< by a gap or by an end of the log: start, duration or end are not whole
  bool draws_like_compressor = false;  ///< the load during it is that of the running compressor: hot gas may heat
  double heater_load = 0.0;            ///< mean [W], or [A] of a log of current; 0 where it is not seen
  double energy_joule = 0.0;           ///< from start to end; 0 where it is not known
  std::optional<double> plateau_start_second;
  double plateau_second = 0.0;  ///< time at the melting point; 0: no plateau
  double plateau_uncertainty_second = 0.0;
  double plateau_kelvin = 0.0;
  std::optional<double> peak_kelvin;          ///< of the coil
  std::optional<double> lasting_peak_kelvin;  ///< the warmest that two samples in a row reach: not a slip of one row
  double peak_second = 0.0;
  std::optional<double> end_kelvin;                   ///< coil at the end of heating
  std::optional<double> end_slope_kelvin_per_second;  ///< how fast it warmed at last; nothing where rows are few
  std::optional<double> drip_second;                  ///< from the end of heating to the compressor's start
  std::optional<double> recovery_second;              ///< first run of the compressor after it
  EndCause cause = EndCause::unknown;
  EndGround ground = EndGround::nothing;
  std::optional<FrostMass> frost;
  std::optional<double> interval_second;          ///< from the start of the one before
  std::optional<double> interval_running_second;  ///< compressor run time between the two
  double gap_in_interval_second = 0.0;            ///< nothing that shows defrosts was logged: one may hide in it
  double score = 0.0;  ///< how well it fits what defrosts look like; 1 is the least that counts
};

/// Time at an end of the log in which no defrost begins: an interval of which one end is not seen.
struct OpenInterval {
  double second = 0.0;                   ///< from a defrost's start to the log's end, or from its beginning
  std::optional<double> running_second;  ///< compressor run time in it, where all of it was logged
  double unseen_second = 0.0;            ///< of it, in gaps in which a defrost may hide and while the appliance stood
  double start_second = 0.0;             ///< since the first row: 0, or the end of the last defrost
};

/// A time in which an appliance that had cooled before no longer does.
struct Standstill {
  double start_second = 0.0;
  double end_second = 0.0;
  std::optional<double> kelvin;  ///< of the coil, else the cabinet, in its second half
  double second() const { return end_second - start_second; }
};

/// What tells that something heats on.
enum class HeatGround : std::uint8_t {
  // Asked about:
  load_stands,      ///< a load that does not stop, and that may be a compressor's
  warm_air,         ///< air of the cabinet warmer than most rooms
  hot_before_cold,  ///< coil or air, in the log's first hours alone: the logger may not have been in the appliance yet
  hot_beside_cold_air,  ///< a coil, while the cabinet stays frozen: its probe may lie elsewhere
  never_rests_cold,     ///< a load that had always stopped and no longer does, whose coil stays cold
  never_rests,          ///< a load that had always stopped and no longer does, no temperature beside it
  never_falls,          ///< a load that from the beginning on never falls below a heater's
  // Sure:
  hot_coil,              ///< hotter than any defrost leaves it
  hot_air,               ///< air of the cabinet hotter than what is unplugged gets
  like_rated_heater,     ///< a load as the rated heater's
  like_other_heatings,   ///< a load as that of the defrosts of this log
  far_above_compressor,  ///< a load that no compressor of this log comes near
  thaws_beside_load,     ///< a load that never falls below a heater's, beside a coil that thaws as no freezer's does
};
/// Whether the ground leaves no doubt that it heats.
bool is_sure(HeatGround ground);

/// A time in which something heats for longer than any time limit lets a defrost, or may.
struct LastingHeat {
  double start_second = 0.0;
  double end_second = 0.0;
  std::optional<double> load;    ///< mean [W], or [A] of a log of current
  std::optional<double> kelvin;  ///< of the coil, or by the grounds of the air of the cabinet, in its second half
  HeatGround ground = HeatGround::load_stands;
  bool has_stopped = false;  ///< after it the load comes and goes as before it: it heats no more
  double second() const { return end_second - start_second; }
  bool is_sure() const { return cycles::is_sure(ground) && !has_stopped; }
  /// Whether it takes the place of what was found in its time, runs and defrosts: not where a probe may have lain
  /// elsewhere, nor where it cools all the same.
  bool takes_over() const {
    return ground != HeatGround::hot_before_cold && ground != HeatGround::hot_beside_cold_air &&
           ground != HeatGround::never_rests_cold && ground != HeatGround::never_rests &&
           ground != HeatGround::never_falls;
  }
};

/// A quick rise that heat cannot make.
struct DoorOpening {
  double start_second = 0.0;
  double rise_kelvin = 0.0;
};

/// A time without rows.
struct LogGap {
  double start_second = 0.0;
  double second = 0.0;           ///< how long, less a row's interval
  std::uint64_t after_line = 0;  ///< the last line before it, from 1; 0 where rows were not read from a text
};

/// How much of its span the log saw.
struct LogCoverage {
  static constexpr std::size_t most_listed_gaps = 10;

  double span_second = 0.0;
  double spacing_second = 0.0;  ///< usual interval of rows
  double gap_second = 0.0;      ///< all that is longer than `gap_limit_second`
  double gap_limit_second = 0.0;
  LogGap longest_gap;
  std::uint64_t gaps = 0;
  std::vector<LogGap> first_gaps;  ///< at most `most_listed_gaps`
  std::uint64_t missing_rows = 0;  ///< about how many rows the gaps and skipped rows lack
  double observed_second = 0.0;    ///< in which there are rows
  /// In which each quantity was logged, in the order of `log_quantities` (power and current both under the one that
  /// was read).
  std::array<double, log_quantity_count> logged_second{};
  /// Share of the span within which a defrost of the shortest kind could hide.
  double hidden_share = 0.0;
};

/// The neighbourhood of a defrost, for a plot of it.
struct DefrostTrace {
  std::size_t defrost = 0;  ///< index into `LogAnalysis::defrosts`
  std::vector<PlotPoint> points;
};

/// What the whole log says.
struct LogAnalysis {
  LogCoverage coverage;
  bool has_load = false;                     ///< power or current
  bool has_coil = false;                     ///< temperature of the coil
  bool has_cabinet = false;                  ///< temperature of the cabinet
  bool load_is_current = false;              ///< loads are amperes, since no line voltage is known
  std::vector<LogThreshold> thresholds;      ///< of the last window of the log
  std::vector<CompressorRun> runs;           ///< the first `most_runs`
  std::uint64_t run_count = 0;               ///< all
  std::optional<double> run_share;           ///< of the time outside defrosts in which it was logged
  double running_second = 0.0;               ///< of the compressor, in all
  std::optional<double> typical_run_second;  ///< median
  std::optional<double> typical_pause_second;
  bool never_stops = false;  ///< but for defrosts
  std::uint64_t short_pulses =
      0;  ///< runs and pauses of less than a minute: attempts to start, lamps; not among `runs`
  std::uint64_t short_pauses = 0;  ///< of which so many are pauses
  std::vector<Defrost> defrosts;
  std::uint64_t defrost_count = 0;
  OpenInterval before_first;  ///< the whole log, where there is no defrost
  OpenInterval after_last;
  std::optional<Standstill> standstill;  ///< the longest
  std::optional<LastingHeat> lasting_heat;
  std::uint64_t coil_thaws = 0;      ///< how often the coil warmed past the melting point, defrosts among them
  bool load_is_modulated = false;    ///< the compressor's loads are as different as an inverter's
  bool speed_varies = false;         ///< what it draws within its runs is as different as an inverter's
  double one_level_second = 0.0;     ///< at the only level above standby, where it may cool or heat
  bool heats_at_only_level = false;  ///< defrosts were told from the only level above standby, which may cool
  std::uint64_t weak_heatings = 0;   ///< as of defrosts by their shape, of less than any heater draws; not told as such
  double weak_heating_load = 0.0;    ///< the highest of them [W, A]
  std::uint64_t frequent_heatings =
      0;  ///< as of defrosts by their load, and oftener than any control's; not told as such
  std::uint64_t short_stand_outs = 0;  ///< how often rows that are far apart stood above all else, too few for a heater
  /// Quantities whose unit is in doubt (`LogReader::doubtful_units`): no rule speaks on them.
  std::array<bool, log_quantity_count> unit_in_doubt{};
  bool time_in_doubt = false;  ///< rows lie before those above them, and not as rows that were copied in twice do
  std::vector<DoorOpening> doors;
  std::uint64_t door_count = 0;
  double energy_joule = 0.0;
  std::optional<double> cabinet_mean_kelvin;  ///< over the time that the log saw
  std::vector<LogFinding> findings;           ///< what the log cannot show, and what is odd about it
  LogOutline outline;                         ///< the whole of it, for a plot
  std::vector<DefrostTrace> traces;           ///< of the last `most_traces` defrosts

  static constexpr std::size_t most_runs = 200'000;
  static constexpr std::size_t most_defrosts = 20'000;
  static constexpr std::size_t most_doors = 20'000;
  static constexpr std::size_t most_traces = 12;
};

/// Takes a log's rows, in order, and says what they hold. Memory does not grow with the log, but for the lists of
/// events.
class LogAnalyser {
 public:
  explicit LogAnalyser(const LogRatings& ratings = {});
  ~LogAnalyser();
  LogAnalyser(LogAnalyser&&) noexcept;
  LogAnalyser& operator=(LogAnalyser&&) noexcept;
  LogAnalyser(const LogAnalyser&) = delete;
  LogAnalyser& operator=(const LogAnalyser&) = delete;

  void take(std::span<const LogRow> rows);
  /// Call one of them once, after the last row. Of rows that a reader gave, the units that it found doubtful, or
  /// guessed and the analysis speaks against, are in doubt (`doubt_guessed_units`).
  LogAnalysis finish();
  LogAnalysis finish(const LogReader& reader);

 private:
  struct Work;
  std::unique_ptr<Work> work_;
};

}  // namespace ohmwright::cycles
