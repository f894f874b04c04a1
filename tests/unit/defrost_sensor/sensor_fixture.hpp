#pragma once

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "curves/beta_curve.hpp"
#include "curves/four_coefficient_curve.hpp"
#include "curves/steinhart_hart_curve.hpp"
#include "part/sensor_ratings.hpp"
#include "rules/names.hpp"

// Sensors, meters and readings for the tests of the kind.

namespace ohmwright::defrost_sensor::testing_support {

inline Temperature celsius(double t) { return Temperature::from_celsius(t); }
inline Resistance ohm(double r) { return Resistance::from_value(r); }

/// 10 kohm, B25/85 = 3977 K.
BetaCurve::Figures beta_3977();
std::array<CurvePoint, 3> worked_points();
SteinhartHartCurve worked_steinhart_hart();
FourCoefficientCurve published_four_coefficient();

/// Ratings with that curve and ±`resistance` everywhere.
SensorRatings ratings_with(std::shared_ptr<const Curve> curve, double resistance = 0.05);
/// 10 kohm, 3977 K, vouched for from -40 to 85 °C, ±5 %.
SensorRatings plain_ratings();

/// 6000 counts, 0.9 % + 3, leads 0.2 ± 0.05 ohm.
MeterSet basic_meter();
/// The same, leads of 0 ohm.
MeterSet no_leads_meter();

/// How a reading is written in these tests.
struct Typed {
  std::string_view value;
  std::string_view at = {};
  Connection connection = Connection::lead_off;
  Moisture moisture = Moisture::dry;
  Supply supply = Supply::proved_dead;
  std::string_view measurand = "resistance";
  std::string_view range = {};
  std::string_view bath = {};  ///< name of the temperature's error
  std::string_view coil_at = {};
  std::vector<std::string_view> repeats = {};
};

const Descriptor& descriptor();
Evidence evidence_of(const std::vector<Typed>& typed, const MeterSet& meters = basic_meter());

/// The findings of a part (null: nothing known) on the readings.
Findings judge(const SensorRatings* ratings, const std::vector<Typed>& typed, const MeterSet& meters = basic_meter(),
               double confidence = 0.95);
Findings judge(const SensorRatings& ratings, const std::vector<Typed>& typed, const MeterSet& meters = basic_meter(),
               double confidence = 0.95);
/// What is concluded from them.
Verdict verdict_on(const SensorRatings* ratings, const std::vector<Typed>& typed,
                   const MeterSet& meters = basic_meter());

const Finding& finding_of(const Findings& findings, RuleIndex rule);
Outcome outcome_of(const Findings& findings, RuleIndex rule);
/// Id of the text that a rule chose.
std::string_view text_of(const Findings& findings, RuleIndex rule);
std::vector<std::string> advice_of(const Findings& findings);
/// A named argument as a number in SI.
double argument(const Finding& finding, std::string_view name);

/// The finding of the slope rule on two readings at 0.1 ± 0.2 °C and 24.8 ± 0.5 °C.
Finding judge_slope(std::string_view cold, std::string_view warm, const MeterSet& meters);
/// ln(R1/R2) at those temperatures with gain shared and counts not, half-widths in ohms.
Estimate log_ratio_with_common_gain(double first, double first_counts, double second, double second_counts,
                                    double gain);
/// u(B) of such a ratio [K].
double slope_uncertainty(const Estimate& log_ratio);

}  // namespace ohmwright::defrost_sensor::testing_support
