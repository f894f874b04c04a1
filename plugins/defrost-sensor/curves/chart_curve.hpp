#pragma once

#include <optional>
#include <string>
#include <vector>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// What is wrong with a chart, and in which of its rows (counted from 0, in the order given).
struct ChartTrouble {
  std::size_t row = 0;
  std::string text;
};

/// A chart of temperatures and resistances, interpolated straight in (1/T, ln R).
///
/// Over 10 K that errs by some 0.02 K, where a straight line in (t, R) errs by 0.7 K. Between rows that lie far apart
/// it errs by more; its bound there is `error_between_rows`, beyond the outer rows that of the outer straight line.
class ChartCurve final : public Curve {
 public:
  /// The first trouble of a chart: fewer than two rows, a temperature twice, a resistance that does not fall as it gets
  /// warmer, a step no thermistor makes (a unit that slipped). Rows may come in either order of temperature.
  static std::optional<ChartTrouble> trouble(const std::vector<CurvePoint>& rows);

  /// `rows` must have no trouble; throws InputError with its text otherwise.
  explicit ChartCurve(std::vector<CurvePoint> rows);

  TemperatureSpan domain() const override { return thermistor_domain(); }
  TemperatureSpan span() const override { return span_; }
  double log_resistance(Temperature t) const override;
  double log_slope(Temperature t) const override;
  std::optional<Temperature> temperature_at(double log_resistance) const override;
  double model_error(Temperature t) const override;
  bool errs_to_one_side(Temperature t) const override;

 private:
  struct Node {
    double inverse_kelvin;
    double log_resistance;
  };
  /// The two neighbours between which a value lies, or the two last ones on its side.
  struct Segment {
    const Node& cold;
    const Node& hot;
    double beta() const {
      return (cold.log_resistance - hot.log_resistance) / (cold.inverse_kelvin - hot.inverse_kelvin);
    }
  };
  Segment segment_at(double inverse_kelvin) const;
  Segment segment_at_log(double log_resistance) const;

  std::vector<Node> nodes_;  ///< from cold to hot
  TemperatureSpan span_;
};

}  // namespace ohmwright::defrost_sensor
