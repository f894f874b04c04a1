#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/thermal/appliance_run.hpp>
#include <ohmwright/thermal/moist_air.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::thermal {

namespace {

/// The control looks at its sensors so often at least, and the meter's means are made of as many looks.
constexpr double longest_look_second = 2.0;
constexpr double inrush_second = 2.0;
constexpr double run_in_second = 6.0 * 3600.0;
constexpr double run_second_per_day = 86400.0;
/// A sensor that reads so much too warm is at the end's temperature before the frost melts.
constexpr double reads_too_warm_kelvin = 14.0;
constexpr double weak_heat_share = 0.5;
constexpr double little_cooling_share = 0.22;
constexpr double ajar_moisture = 5.0;  ///< times the usual
constexpr double ajar_watt_per_kelvin = 2.5;
/// A thermostat that opened closes again when the coil is so much colder.
constexpr double closes_again_kelvin = 12.0;
constexpr double droop_share = 0.15;  ///< more power after a start, fading over some minutes
constexpr double droop_second = 300.0;

class Control {
 public:
  Control(const AppliancePlan& plan, double look_second, ReproducibleStream& stream)
      : plan_(plan), look_second_(look_second), stream_(stream), model_(plan.lumps) {
    model_.set_frost(0.1);
    run_count_ = (0.2 + 0.6 * stream_.uniform()) * plan_.interval_second;
    next_door_ = next_door_in();
  }

  /// One look: decides, then lets time pass.
  void look(double second) {
    doors(second);
    decide(second);
    pass(second);
  }

  const ApplianceModel& model() const { return model_; }
  double power() const { return power_; }
  double sensed_coil() const { return sensed_coil_; }
  const std::vector<RunDefrost>& defrosts() const { return defrosts_; }

 private:
  enum class Mode { stands, runs, heats, drips };

  double next_door_in() {
    return -std::log(1.0 - stream_.uniform()) * run_second_per_day / std::max(plan_.doors_a_day, 1e-6);
  }

  void doors(double second) {
    door_left_ -= look_second_;
    if (second < next_door_) return;
    next_door_ = second + next_door_in();
    if (mode_ == Mode::heats || mode_ == Mode::drips) return;
    DoorAir air;
    air.cold_kelvin = model_.air_kelvin();
    air.room_kelvin = plan_.lumps.room_kelvin;
    const double share = 0.3 + 0.5 * stream_.uniform();
    air.changed_share = share;
    model_.open_door(share, std::max(0.0, frost_of_opening(air)));
    door_left_ = 30.0;
  }

  void enter(Mode mode, double second) {
    if (mode == Mode::runs && mode_ != Mode::runs) started_ = second;
    mode_ = mode;
    since_ = second;
  }

  bool is_due() const { return plan_.fault != SimulatedFault::never_starts && run_count_ >= plan_.interval_second; }

  void decide(double second) {
    switch (mode_) {
      case Mode::heats:
        return decide_heating(second);
      case Mode::drips:
        if (second - since_ >= plan_.drip_second) enter(Mode::runs, second);
        return;
      case Mode::runs:
        if (is_due()) return begin_defrost(second);
        if (model_.air_kelvin() <= plan_.air_low_kelvin) enter(Mode::stands, second);
        return;
      case Mode::stands:
        if (is_due()) return begin_defrost(second);
        if (model_.air_kelvin() >= plan_.air_high_kelvin) enter(Mode::runs, second);
        return;
    }
  }

  void begin_defrost(double second) {
    run_count_ = 0.0;
    defrosts_.push_back({second, second, false, model_.frost_kilogram()});
    enter(Mode::heats, second);
  }

  void decide_heating(double second) {
    if (plan_.fault == SimulatedFault::stuck_in_defrost) return switch_heater();
    double believed = sensed_coil_;
    if (plan_.fault == SimulatedFault::ends_early) believed += reads_too_warm_kelvin;
    const bool warm = plan_.fault != SimulatedFault::ends_late && believed >= plan_.end_kelvin;
    const bool late = second - since_ >= plan_.time_limit_second;
    if (!warm && !late) return;
    defrosts_.back().end_second = second;
    defrosts_.back().ended_by_time = !warm;
    enter(Mode::drips, second);
  }

  /// Nothing ends the defrost; only the temperature switches the heater.
  void switch_heater() {
    if (sensed_coil_ >= plan_.end_kelvin) is_opened_ = true;
    if (sensed_coil_ < plan_.end_kelvin - closes_again_kelvin) is_opened_ = false;
  }

  bool compressor_runs() const {
    return mode_ == Mode::runs || (mode_ != Mode::stands && plan_.fault == SimulatedFault::runs_while_heating);
  }

  double heater_watt() const {
    if (mode_ != Mode::heats || is_opened_ || plan_.fault == SimulatedFault::no_heat) return 0.0;
    return plan_.fault == SimulatedFault::weak_heat ? weak_heat_share * plan_.heater_watt : plan_.heater_watt;
  }

  bool fan_turns(double second) const {
    if (mode_ != Mode::runs || plan_.fault == SimulatedFault::fan_stopped) return false;
    const bool after_defrost = !defrosts_.empty() && started_ > defrosts_.back().end_second &&
                               started_ < defrosts_.back().end_second + 2.0 * plan_.drip_second;
    return !after_defrost || second - started_ >= plan_.fan_delay_second;
  }

  void pass(double second) {
    ApplianceDrive drive;
    drive.heater_watt = heater_watt();
    drive.fan_watt = fan_turns(second) ? plan_.fan_watt : 0.0;
    if (compressor_runs())
      drive.cooling_share = plan_.fault == SimulatedFault::little_cooling ? little_cooling_share : 1.0;
    const bool ajar = plan_.fault == SimulatedFault::door_ajar;
    drive.moisture_kilogram_per_second =
        plan_.moisture_kilogram_per_day / run_second_per_day * (ajar ? ajar_moisture : 1.0);
    drive.open_watt_per_kelvin = ajar ? ajar_watt_per_kelvin : 0.0;
    model_.step(drive, look_second_);
    constexpr double sensor_second = 15.0;
    sensed_coil_ += (model_.coil_kelvin() - sensed_coil_) * look_second_ / sensor_second;
    if (mode_ == Mode::runs || !plan_.interval_counts_running) run_count_ += look_second_;
    power_ = plan_.standby_watt + drive.heater_watt + drive.fan_watt;
    if (compressor_runs()) {
      power_ += plan_.compressor_watt * (1.0 + droop_share * std::exp(-(second - started_) / droop_second));
      if (second - started_ < inrush_second) power_ += plan_.inrush_watt;
    }
    constexpr double lamp_watt = 15.0;
    if (door_left_ > 0.0) power_ += lamp_watt;
  }

  const AppliancePlan& plan_;
  double look_second_;
  ReproducibleStream& stream_;
  ApplianceModel model_;
  Mode mode_ = Mode::stands;
  bool is_opened_ = false;  ///< of a defrost that never ends: the thermostat has opened
  double since_ = 0.0;
  double started_ = -1e9;
  double run_count_ = 0.0;
  double next_door_ = 0.0;
  double door_left_ = 0.0;
  double sensed_coil_ = 255.15;
  double power_ = 0.0;
  std::vector<RunDefrost> defrosts_;
};

double in_steps(double value, double step) { return std::round(value / step) * step; }

/// What a logger writes of a temperature [K] that it reads with that error [K]: tenths of a degree Celsius.
double logged_kelvin(double kelvin, double error) {
  constexpr double ice_point = Temperature::kelvin_at_zero_celsius;
  return ice_point + in_steps(kelvin - ice_point + error, 0.1);
}

}  // namespace

ApplianceLog run_appliance(const AppliancePlan& plan, std::uint64_t seed) {
  ReproducibleStream stream(seed);
  ReproducibleStream logger(seed + 1);
  // A whole number of looks from row to row: rows stand as far apart as was asked.
  const auto looks_a_row = static_cast<std::uint64_t>(std::ceil(plan.spacing_second / longest_look_second));
  const double look_second = plan.spacing_second / static_cast<double>(looks_a_row);
  Control control(plan, look_second, stream);
  ApplianceLog log;
  const double end = plan.days * run_second_per_day;
  double power = 0.0;
  double looks = 0.0;
  // It has cooled for some hours when the logger starts.
  const auto run_in_looks = static_cast<std::uint64_t>(std::ceil(run_in_second / look_second));
  const auto count = run_in_looks + static_cast<std::uint64_t>(std::ceil(end / look_second));
  const double start_second = look_second * static_cast<double>(run_in_looks);
  for (std::uint64_t look = 0; look < count; ++look) {
    control.look(look_second * static_cast<double>(look));
    if (look < run_in_looks) continue;
    power += control.power();
    looks += 1.0;
    const std::uint64_t logged_looks = look - run_in_looks;
    if (logged_looks % looks_a_row != 0) continue;
    cycles::LogRow row;
    row.time_second = plan.spacing_second * static_cast<double>(logged_looks / looks_a_row);
    const double power_error = 1.0 + plan.power_noise * logger.normal();
    const double coil_error = plan.kelvin_noise * logger.normal();
    const double cabinet_error = plan.kelvin_noise * logger.normal();
    row.value[cycles::index_of(cycles::LogQuantity::power)] = in_steps(power / looks * power_error, 0.1);
    row.value[cycles::index_of(cycles::LogQuantity::coil_temperature)] =
        logged_kelvin(control.sensed_coil(), coil_error);
    row.value[cycles::index_of(cycles::LogQuantity::cabinet_temperature)] =
        logged_kelvin(control.model().air_kelvin(), cabinet_error);
    log.rows.push_back(row);
    power = looks = 0.0;
  }
  for (RunDefrost one : control.defrosts()) {
    one.start_second -= start_second;
    one.end_second -= start_second;
    if (one.end_second > 0.0) log.defrosts.push_back(one);
  }
  log.energy_residual_ratio = std::abs(control.model().energy_residual_joule()) / control.model().energy_in_joule();
  return log;
}

}  // namespace ohmwright::thermal
