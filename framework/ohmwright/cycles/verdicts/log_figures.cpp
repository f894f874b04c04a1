#include <array>
#include <cmath>
#include <limits>

#include <ohmwright/cycles/verdicts/log_figures.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/repeats.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double second_per_day = 86400.0;

using Values = std::vector<double>;

template <class Take>
Values of_whole_defrosts(const LogAnalysis& log, Take take) {
  Values values;
  for (const Defrost& defrost : log.defrosts) {
    if (defrost.is_cut) continue;
    if (const std::optional<double> value = take(defrost)) values.push_back(*value);
  }
  return values;
}

std::optional<double> if_above_nought(double value) {
  return value > 0.0 ? std::optional<double>(value) : std::nullopt;
}

Values heating(const LogAnalysis& log) {
  return of_whole_defrosts(log, [](const Defrost& d) {
    return d.has_load && !d.heater_is_seen ? std::nullopt : if_above_nought(d.end_second - d.start_second);
  });
}
Values heater_power(const LogAnalysis& log) {
  if (log.load_is_current) return {};
  return of_whole_defrosts(log, [](const Defrost& d) { return if_above_nought(d.heater_load); });
}
Values heater_energy(const LogAnalysis& log) {
  return of_whole_defrosts(log, [](const Defrost& d) { return if_above_nought(d.energy_joule); });
}
Values plateau(const LogAnalysis& log) {
  return of_whole_defrosts(
      log, [](const Defrost& d) { return d.has_coil ? std::optional<double>(d.plateau_second) : std::nullopt; });
}
Values peak(const LogAnalysis& log) {
  return of_whole_defrosts(log, [](const Defrost& d) { return d.peak_kelvin; });
}
Values frost(const LogAnalysis& log) {
  return of_whole_defrosts(
      log, [](const Defrost& d) { return d.frost ? std::optional<double>(d.frost->kilogram) : std::nullopt; });
}
Values drip(const LogAnalysis& log) {
  return of_whole_defrosts(log, [](const Defrost& d) { return d.drip_second; });
}
Values recovery(const LogAnalysis& log) {
  return of_whole_defrosts(log, [](const Defrost& d) { return d.recovery_second; });
}
/// Only where no gap can hide a defrost between the two.
Values interval(const LogAnalysis& log) {
  return of_whole_defrosts(
      log, [](const Defrost& d) { return d.gap_in_interval_second > 0.0 ? std::nullopt : d.interval_second; });
}
Values running_interval(const LogAnalysis& log) {
  return of_whole_defrosts(
      log, [](const Defrost& d) { return d.gap_in_interval_second > 0.0 ? std::nullopt : d.interval_running_second; });
}
Values compressor_run(const LogAnalysis& log) {
  Values values;
  for (const CompressorRun& run : log.runs)
    if (run.start_is_seen && run.end_is_seen) values.push_back(run.end_second - run.start_second);
  return values;
}
Values single(std::optional<double> value) { return value ? Values{*value} : Values{}; }
Values run_share(const LogAnalysis& log) { return single(log.run_share); }
Values cabinet(const LogAnalysis& log) { return single(log.cabinet_mean_kelvin); }
double seen_second(const LogAnalysis& log) { return log.coverage.span_second - log.coverage.gap_second; }
double load_second(const LogAnalysis& log) { return log.coverage.logged_second[index_of(LogQuantity::power)]; }
Values defrosts_a_day(const LogAnalysis& log) {
  if (seen_second(log) <= 0.0) return {};
  return {static_cast<double>(log.defrost_count) / seen_second(log) * second_per_day};
}
/// Mean power over the time in which it was logged: what it costs.
Values mean_power(const LogAnalysis& log) {
  if (log.energy_joule <= 0.0 || load_second(log) <= 0.0) return {};
  return {log.energy_joule / load_second(log)};
}

struct FigureRow {
  std::string_view id;
  Dimension dimension;
  Values (*values)(const LogAnalysis&);
};

constexpr std::array figure_rows{
    FigureRow{"defrosts_a_day", Dimension::ratio, defrosts_a_day},
    FigureRow{"heating", Dimension::duration, heating},
    FigureRow{"heater_power", Dimension::power, heater_power},
    FigureRow{"heater_energy", Dimension::energy, heater_energy},
    FigureRow{"plateau", Dimension::duration, plateau},
    FigureRow{"peak", Dimension::temperature, peak},
    FigureRow{"frost", Dimension::mass, frost},
    FigureRow{"drip", Dimension::duration, drip},
    FigureRow{"recovery", Dimension::duration, recovery},
    FigureRow{"interval", Dimension::duration, interval},
    FigureRow{"running_interval", Dimension::duration, running_interval},
    FigureRow{"run_share", Dimension::ratio, run_share},
    FigureRow{"compressor_run", Dimension::duration, compressor_run},
    FigureRow{"cabinet", Dimension::temperature, cabinet},
    FigureRow{"mean_power", Dimension::power, mean_power},
};

std::optional<LogFigure> figure_of(const Values& values) {
  if (values.empty()) return std::nullopt;
  if (values.size() == 1) return LogFigure{values.front(), 0.0, 1};
  const RepeatedMean repeated = mean_of_repeats(values);
  return LogFigure{repeated.mean, repeated.standard_uncertainty, values.size()};
}

/// Rows show no edge of an event to less than their interval: what that makes of the mean of several [s]; 0 of figures
/// that are no durations.
double doubt_of_rows(const LogAnalysis& log, const LogFigure& figure, Dimension dimension) {
  if (dimension != Dimension::duration) return 0.0;
  return duration_uncertainty(log.coverage.spacing_second) / std::sqrt(static_cast<double>(figure.count));
}

std::optional<double> probability_greater(const std::optional<LogFigure>& before, const std::optional<LogFigure>& after,
                                          double doubt_before, double doubt_after) {
  if (!before || !after || before->count < 2 || after->count < 2) return std::nullopt;
  const auto freedom = [](const LogFigure& figure) { return static_cast<double>(figure.count) - 1.0; };
  const std::array sources{ErrorSource{"scatter", "before", Shape::student_t, freedom(*before)},
                           ErrorSource{"scatter", "after", Shape::student_t, freedom(*after)},
                           ErrorSource{"row-interval", "before", Shape::normal},
                           ErrorSource{"row-interval", "after", Shape::normal}};
  Estimate difference(after->mean - before->mean);
  difference.add_term(0, before->scatter);
  difference.add_term(1, after->scatter);
  difference.add_term(2, doubt_before);
  difference.add_term(3, doubt_after);
  if (difference.standard_uncertainty() <= 0.0) return std::nullopt;
  return probability_between(difference, sources, 0.0, std::numeric_limits<double>::infinity());
}

}  // namespace

std::vector<FigureChange> compare_figures(const LogAnalysis& before, const LogAnalysis& after) {
  std::vector<FigureChange> changes;
  for (const FigureRow& row : figure_rows) {
    FigureChange change{row.id, row.dimension, figure_of(row.values(before)), figure_of(row.values(after)), {}};
    if (!change.before && !change.after) continue;
    if (change.before && change.after)
      change.probability_greater =
          probability_greater(change.before, change.after, doubt_of_rows(before, *change.before, row.dimension),
                              doubt_of_rows(after, *change.after, row.dimension));
    changes.push_back(change);
  }
  return changes;
}

}  // namespace ohmwright::cycles
