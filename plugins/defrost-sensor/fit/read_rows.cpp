#include "fit/read_rows.hpp"

#include "fit/remarks.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry over_range{"over-range",
                               OHMWRIGHT_TEXT("At {temperature} the meter showed over-range: that is no value. Read "
                                              "again on a higher range.")};
constexpr TextEntry contact{"contact", OHMWRIGHT_TEXT("At {temperature} it says open or closed where ohms belong.")};
constexpr TextEntry no_resistance{"no-resistance",
                                  OHMWRIGHT_TEXT("{value} at {temperature} is no resistance of a sensor.")};
constexpr TextEntry no_temperature{
    "no-temperature", OHMWRIGHT_TEXT("{temperature} is no temperature that a thermistor is used at: check its unit.")};

RowRemark unusable(std::size_t row, const TextEntry& text, Temperature t) {
  RowRemark remark = remark_on(row, text, true);
  tell(remark, "temperature", AnyQuantity(t));
  return remark;
}

}  // namespace

FitRows read_rows(const FitRequest& request, std::vector<RowRemark>& remarks) {
  FitRows rows;
  for (std::size_t i = 0; i < request.rows.size(); ++i) {
    const MeasuredRow& measured = request.rows[i];
    const Temperature t = Temperature::from_kelvin(measured.condition.value_in_si());
    const auto* value = std::get_if<StatedValue>(&measured.observed);
    if (value == nullptr) {
      const bool is_contact = std::holds_alternative<ContactState>(measured.observed);
      remarks.push_back(unusable(i, is_contact ? contact : over_range, t));
      continue;
    }
    const double resistance = value_in_si(measured).value_or(value->value.value_in_si());
    if (!(resistance > 0.0) || !std::isfinite(resistance)) {
      remarks.push_back(unusable(i, no_resistance, t));
      tell(remarks.back(), "value", value->value);
      continue;
    }
    if (!thermistor_domain().contains(t)) {
      remarks.push_back(unusable(i, no_temperature, t));
      continue;
    }
    // What was only assumed of a thermometer is no statement on this row: the scatter of the rows tells more.
    rows.push_back({i, t, Resistance::from_value(resistance),
                    measured.half_width_assumed ? 0.0 : measured.condition_half_width,
                    value->half_width.value_or(0.0) / resistance});
  }
  return rows;
}

}  // namespace ohmwright::defrost_sensor
