#include "fit/slips.hpp"

#include <array>

#include "fit/remarks.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry kilohm_among_ohms{
    "kilohm-among-ohms",
    OHMWRIGHT_TEXT("At {temperature} the other rows ask for {expected}; it says {value}: kilohms written as ohms?")};
constexpr TextEntry ohm_among_kilohms{
    "ohm-among-kilohms",
    OHMWRIGHT_TEXT("At {temperature} the other rows ask for {expected}; it says {value}: ohms written as kilohms?")};
constexpr TextEntry decimal_point_high{
    "decimal-point-high",
    OHMWRIGHT_TEXT(
        "At {temperature} the other rows ask for {expected}; it says {value}, {factor} times that: a decimal "
        "point that slipped?")};
constexpr TextEntry decimal_point_low{
    "decimal-point-low",
    OHMWRIGHT_TEXT("At {temperature} the other rows ask for {expected}, {factor} times the {value} that it says: a "
                   "decimal point that slipped?")};
constexpr TextEntry fahrenheit_among_celsius{
    "fahrenheit-among-celsius",
    OHMWRIGHT_TEXT("At {temperature} the other rows ask for {expected}; it says {value}, right for {meant}: a "
                   "temperature in °F among °C?")};
constexpr TextEntry celsius_among_fahrenheit{
    "celsius-among-fahrenheit",
    OHMWRIGHT_TEXT("At {temperature} the other rows ask for {expected}; it says {value}, right for {meant}: a "
                   "temperature in °C among °F?")};
constexpr TextEntry off_the_curve{
    "off-the-curve",
    OHMWRIGHT_TEXT("At {temperature} the other rows ask for {expected}; it says {value}, {off} off: misread, or typed "
                   "wrong?")};

struct Slip {
  const TextEntry* text;
  double factor = 0.0;                          ///< of the resistance; 0: the temperature slipped
  Temperature (*meant)(Temperature) = nullptr;  ///< what the temperature was to be
};

Temperature as_fahrenheit(Temperature t) { return Temperature::from_fahrenheit(t.celsius()); }
Temperature as_celsius(Temperature t) { return Temperature::from_celsius(t.fahrenheit()); }

constexpr std::array<Slip, 8> slips{{
    {&kilohm_among_ohms, 1e-3},
    {&ohm_among_kilohms, 1e3},
    {&decimal_point_high, 10.0},
    {&decimal_point_low, 0.1},
    {&decimal_point_high, 100.0},
    {&decimal_point_low, 0.01},
    {&fahrenheit_among_celsius, 0.0, as_fahrenheit},
    {&celsius_among_fahrenheit, 0.0, as_celsius},
}};

/// The row as it was meant, if it slipped so.
FitRow mended(FitRow row, const Slip& slip) {
  if (slip.meant != nullptr)
    row.temperature = slip.meant(row.temperature);
  else
    row.resistance /= slip.factor;
  return row;
}

/// The slip that explains the row best, or null.
const Slip* best_slip(const FitRow& row, const WorkingModel& model) {
  const Slip* best = nullptr;
  double least = explained_kelvin;
  for (const Slip& slip : slips) {
    const FitRow meant = mended(row, slip);
    if (!thermistor_domain().contains(meant.temperature)) continue;
    const double off = std::abs(model.kelvin_off(meant));
    if (off >= least) continue;
    best = &slip;
    least = off;
  }
  return best;
}

}  // namespace

bool is_slip(const FitRow& row, const WorkingModel& model) { return best_slip(row, model) != nullptr; }

RowRemark explain(const FitRow& row, const WorkingModel& model) {
  const Slip* slip = best_slip(row, model);
  const double expected = model.log_resistance(row.temperature);
  RowRemark remark = remark_on(row, slip == nullptr ? off_the_curve : *slip->text, expected);
  if (slip == nullptr)
    tell(remark, "off", kelvins(std::abs(model.kelvin_off(row))));
  else if (slip->meant != nullptr)
    tell(remark, "meant", AnyQuantity(slip->meant(row.temperature)));
  else
    tell(remark, "factor", slip->factor < 1.0 ? std::round(1.0 / slip->factor) : slip->factor);
  return remark;
}

}  // namespace ohmwright::defrost_sensor
