#include "simulated_log.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::cycles::testing_support {

namespace {

double between(ReproducibleStream& stream, double low, double high) { return low + (high - low) * stream.uniform(); }

bool happens(ReproducibleStream& stream, double share) { return stream.uniform() < share; }

/// An invented appliance, second by second.
class Appliance {
 public:
  Appliance(const SimulatedPlan& plan, ReproducibleStream& stream)
      : plan_(plan), stream_(stream), next_defrost_(between(stream, 0.3, 1.0) * plan.interval_hour * 3600.0) {
    next_ice_ = between(stream_, 600.0, 7200.0);
    next_door_ = between(stream_, 600.0, 7200.0);
  }

  void step(double second) {
    advance_state(second);
    heat(second);
    set_power(second);
  }

  double power = 0.0;
  double coil = -20.0;
  double cabinet = -18.0;
  std::vector<TrueDefrost> defrosts;
  std::vector<double> doors;
  std::uint64_t starts = 0;

 private:
  enum class State { runs, stands, heats, drips };

  void enter(State state, double second, double lasts) {
    if (state == State::runs && state_ != State::runs) {
      if (second >= 0.0) ++starts;
      started_ = second;
    }
    state_ = state;
    until_ = second + lasts;
  }

  void advance_state(double second) {
    if (state_ != State::heats && state_ != State::drips && second >= next_defrost_) return begin_defrost(second);
    if (state_ == State::heats) {
      const bool warm = coil >= plan_.end_celsius;
      const bool late = second - defrosts.back().start_second >= plan_.time_limit_second;
      if (!warm && !late) return;
      defrosts.back().end_second = second;
      defrosts.back().cause = warm ? EndCause::temperature : EndCause::time_limit;
      enter(State::drips, second, plan_.drip_second);
      return;
    }
    if (second < until_) return;
    if (state_ == State::drips) {
      next_defrost_ =
          second + plan_.interval_hour * 3600.0 * (1.0 + plan_.interval_spread * between(stream_, -1.0, 1.0));
      enter(State::runs, second,
            plan_.never_stops ? 1e9 : plan_.period_second * plan_.duty + between(stream_, 1800.0, 5400.0));
      recovers_ = true;
    } else if (state_ == State::runs) {
      recovers_ = false;
      enter(State::stands, second, plan_.period_second * (1.0 - plan_.duty) * between(stream_, 0.85, 1.15));
    } else {
      enter(State::runs, second,
            plan_.never_stops ? 1e9 : plan_.period_second * plan_.duty * between(stream_, 0.85, 1.15));
    }
  }

  void begin_defrost(double second) {
    melt_left_ = plan_.melt_second * std::max(0.15, 1.0 + plan_.melt_spread * stream_.normal());
    TrueDefrost defrost;
    defrost.start_second = second;
    defrosts.push_back(defrost);
    enter(State::heats, second, 1e9);
  }

  void heat(double second) {
    if (state_ == State::heats) {
      if (coil >= 0.0 && melt_left_ > 0.0) {
        melt_left_ -= 1.0;
        defrosts.back().plateau_second += 1.0;
      } else {
        coil += heating_ - 0.0008 * (coil + 18.0);
        if (melt_left_ > 0.0) coil = std::min(coil, 0.0);
      }
    } else {
      const double target = state_ == State::runs ? -27.0 : (state_ == State::drips ? -8.0 : cabinet + 1.0);
      const double time = state_ == State::runs ? 400.0 : (state_ == State::drips ? 1500.0 : 700.0);
      coil += (target - coil) / time;
    }
    const double room = 0.00006 * (23.0 - cabinet);
    const double from_coil = (coil - cabinet) * (state_ == State::runs ? 0.0009 : (coil > -5.0 ? 0.00025 : 0.00015));
    cabinet += 0.1 * room + from_coil;
    if (plan_.has_doors && second >= next_door_) {
      if (state_ != State::heats && state_ != State::drips) {
        door_left_ = between(stream_, 15.0, 60.0);
        if (second >= 0.0) doors.push_back(second);
      }
      next_door_ = second + between(stream_, 1200.0, 4.0 * 3600.0);
    }
    if (door_left_ > 0.0) {
      door_left_ -= 1.0;
      cabinet += 0.08;
    }
  }

  void set_power(double second) {
    power = plan_.standby_watt;
    if (state_ == State::runs) {
      double level = plan_.running_watt;
      if (plan_.is_inverter) {
        if (second >= next_speed_) {
          speed_ = recovers_ ? between(stream_, 0.85, 1.0) : between(stream_, 0.35, 0.8);
          next_speed_ = second + between(stream_, 900.0, 7200.0);
        }
        shown_speed_ += (speed_ - shown_speed_) / 60.0;
        level *= shown_speed_;
      } else {
        level *= 1.0 + plan_.droop * std::exp(-(second - started_) / 400.0);
        if (second - started_ < 2.0) level += plan_.inrush_watt;
      }
      power += level;
    }
    if (state_ == State::heats) power += heater_power(second - defrosts.back().start_second);
    if (door_left_ > 0.0) power += plan_.lamp_watt;
    if (plan_.has_ice_maker) {
      if (second >= next_ice_) {
        ice_left_ = between(stream_, 120.0, 300.0);
        next_ice_ = second + between(stream_, 3600.0, 7200.0) + (happens(stream_, 0.1) ? 6.0 * 3600.0 : 0.0);
      }
      if (ice_left_ > 0.0) {
        ice_left_ -= 1.0;
        power += 160.0;
      }
    }
  }

  double heater_power(double heated_second) const {
    if (plan_.pulse_second > 0.0 && std::fmod(heated_second, 180.0) > 180.0 - plan_.pulse_second) return 0.0;
    const double cold = 1.0 + 0.06 * std::exp(-heated_second / 60.0);  // a cold element draws somewhat more
    return plan_.heater_watt * cold * (heated_second > 300.0 ? plan_.second_step : 1.0);
  }

  const SimulatedPlan& plan_;
  ReproducibleStream& stream_;
  State state_ = State::stands;
  double until_ = -21600.0;
  double next_defrost_;
  double started_ = 0.0;
  double melt_left_ = 0.0;
  double heating_ = 0.075;
  double next_door_ = 0.0;
  double door_left_ = 0.0;
  double next_ice_ = 0.0;
  double ice_left_ = 0.0;
  double next_speed_ = 0.0;
  double speed_ = 0.6;
  double shown_speed_ = 0.6;
  bool recovers_ = false;
};

double rounded(double value, double step) { return std::round(value / step) * step; }

void hide(SimulatedLog& log, double from, double to) {
  for (TrueDefrost& one : log.defrosts)
    if (one.start_second < to + 2.0 * log.plan.spacing_second && one.end_second > from - 2.0 * log.plan.spacing_second)
      one.is_hidden = true;
}

}  // namespace

SimulatedPlan plan_from_seed(std::uint64_t seed) {
  ReproducibleStream stream(seed * 7919 + 17);
  SimulatedPlan plan;
  constexpr std::array<double, 8> spacings{1.0, 2.0, 5.0, 10.0, 30.0, 60.0, 120.0, 300.0};
  plan.spacing_second = spacings[stream.below(spacings.size())];
  plan.jitter = happens(stream, 0.5) ? between(stream, 0.0, 0.4) : 0.0;
  plan.averages = plan.spacing_second >= 30.0 && happens(stream, 0.6);
  plan.gap_share = happens(stream, 0.4) ? between(stream, 0.0, 0.08) : 0.0;
  const std::uint64_t held = stream.below(10);
  plan.has_power = held < 8;
  plan.has_coil = held >= 4;
  plan.has_cabinet = happens(stream, 0.4);
  constexpr std::array<double, 3> steps{0.1, 1.0, 2.0};
  plan.power_step_watt = steps[stream.below(steps.size())];
  plan.power_noise = between(stream, 0.001, 0.03);
  plan.kelvin_noise = between(stream, 0.02, 0.3);
  plan.standby_watt = between(stream, 0.0, 14.0);
  plan.is_inverter = happens(stream, 0.35);
  plan.running_watt = between(stream, 70.0, 140.0);
  plan.never_stops = happens(stream, plan.is_inverter ? 0.3 : 0.08);
  plan.droop = between(stream, 0.0, 0.35);
  plan.lamp_watt = between(stream, 2.0, 60.0);
  if (happens(stream, 0.12)) plan.second_step = between(stream, 0.55, 0.9);
  if (happens(stream, 0.08)) plan.pulse_second = between(stream, 20.0, 60.0);
  plan.inrush_watt = happens(stream, 0.5) ? between(stream, 300.0, 1400.0) : 0.0;
  plan.heater_watt =
      std::max(between(stream, 185.0, 470.0), 1.3 * plan.running_watt * (1.0 + 0.4 * plan.droop) / plan.second_step);
  plan.has_ice_maker = plan.has_power && happens(stream, 0.25);
  plan.period_second = between(stream, 1500.0, 5400.0);
  plan.duty = between(stream, 0.25, 0.75);
  plan.interval_hour = happens(stream, 0.7) ? between(stream, 8.0, 16.0) : between(stream, 16.0, 54.0);
  plan.interval_spread = happens(stream, 0.5) ? between(stream, 0.05, 0.4) : 0.0;
  plan.interval_hour = std::max(plan.interval_hour, 8.0 / (1.0 - plan.interval_spread));
  plan.drip_second = between(stream, 180.0, 1320.0);
  plan.end_celsius = between(stream, 6.0, 15.0);
  // 8 to 25 minutes: some five for warming up and for the rise, the rest for the frost.
  plan.melt_second = between(stream, 200.0, 800.0);
  plan.melt_spread = between(stream, 0.15, 0.4);
  const bool stops_by_clock = happens(stream, 0.25);
  plan.time_limit_second =
      stops_by_clock ? std::max(480.0, 330.0 + between(stream, 0.4, 0.9) * plan.melt_second) : 2400.0;
  plan.days = std::max(4.0, plan.interval_hour / 24.0 * 5.0);
  // A freezer may cool for one or two hours and rest for two or three.
  if (happens(stream, 0.06)) {
    plan.period_second = between(stream, 9000.0, 19200.0);
    plan.duty = between(stream, 0.25, 0.4);
  }
  return plan;
}

SimulatedLog simulate(const SimulatedPlan& plan, std::uint64_t seed) {
  ReproducibleStream stream(seed);
  ReproducibleStream logger(seed + 1'000'003);
  SimulatedLog log;
  log.plan = plan;
  Appliance appliance(plan, stream);
  const double end = plan.days * 86400.0;
  double next_row = 0.0;
  double sum = 0.0;
  double sum_coil = 0.0;
  double sum_cabinet = 0.0;
  double count = 0.0;
  double gap_until = -1.0;
  std::vector<std::pair<double, double>> gaps;
  // It has cooled for some hours when the logger starts.
  for (double second = -21600.0; second < end; second += 1.0) {
    appliance.step(second);
    if (second < 0.0) continue;
    sum += appliance.power;
    sum_coil += appliance.coil;
    sum_cabinet += appliance.cabinet;
    count += 1.0;
    if (second < next_row) continue;
    const double jitter = plan.jitter * plan.spacing_second * between(logger, -0.5, 0.5);
    next_row += plan.spacing_second;
    LogRow row;
    row.time_second = std::max(second + (plan.averages ? 0.0 : jitter), 0.0);
    const double power_error = 1.0 + plan.power_noise * logger.normal();
    const double coil_error = plan.kelvin_noise * logger.normal();
    const double cabinet_error = plan.kelvin_noise * logger.normal();
    const double watt = plan.averages ? sum / count : appliance.power;
    if (plan.has_power) row.value[index_of(LogQuantity::power)] = rounded(watt * power_error, plan.power_step_watt);
    if (plan.has_coil)
      row.value[index_of(LogQuantity::coil_temperature)] =
          273.15 + rounded((plan.averages ? sum_coil / count : appliance.coil) + coil_error, 0.1);
    if (plan.has_cabinet)
      row.value[index_of(LogQuantity::cabinet_temperature)] =
          273.15 + rounded((plan.averages ? sum_cabinet / count : appliance.cabinet) + cabinet_error, 0.1);
    if (plan.averages) row.time_second = std::max(0.0, second - count + 1.0);  // stamped at the start of the mean
    sum = sum_coil = sum_cabinet = count = 0.0;
    if (plan.gap_share > 0.0 && second > gap_until &&
        logger.uniform() < plan.gap_share * plan.spacing_second / 1200.0) {
      const double lasts = happens(logger, 0.6) ? between(logger, 60.0, 300.0) : between(logger, 300.0, 7200.0);
      gap_until = second + lasts;
      gaps.emplace_back(second, gap_until);
    }
    if (second <= gap_until) continue;
    if (log.rows.empty() || row.time_second > log.rows.back().time_second) log.rows.push_back(row);
  }
  log.defrosts = appliance.defrosts;
  if (!log.defrosts.empty() && log.defrosts.back().end_second == 0.0) log.defrosts.back().end_second = end;
  log.doors = appliance.doors;
  log.compressor_starts = appliance.starts;
  for (const auto& [from, to] : gaps) hide(log, from, to);
  hide(log, -1.0, 60.0);
  hide(log, end - 7200.0, end);
  return log;
}

std::string as_text(const SimulatedLog& log) {
  std::string text = "time";
  if (log.plan.has_coil)
    text +=
        ";coil (\xC2\xB0"
        "C)";
  if (log.plan.has_cabinet)
    text +=
        ";cabinet (\xC2\xB0"
        "C)";
  if (log.plan.has_power) text += ";power (W)";
  text += "\r\n";
  std::array<char, 64> cell{};
  for (const LogRow& row : log.rows) {
    const auto second = static_cast<long long>(row.time_second);
    std::snprintf(cell.data(), cell.size(), "2024-01-%02lld %02lld:%02lld:%02lld", 1 + second / 86400,
                  second / 3600 % 24, second / 60 % 60, second % 60);
    text += cell.data();
    for (std::size_t i = 0; i < log_quantity_count; ++i) {
      if (std::isnan(row.value[i])) continue;
      std::snprintf(cell.data(), cell.size(), ";%.1f", row.value[i] - (i < 2 ? 273.15 : 0.0));
      text += cell.data();
    }
    text += "\r\n";
  }
  std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

}  // namespace ohmwright::cycles::testing_support
