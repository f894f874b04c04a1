#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/cycles/reading/column_words.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/cycles/reading/quantity_guess.hpp>

namespace ohmwright::cycles {

namespace {

using Meaning = ColumnWords::Meaning;

/// What the numbers of a column look like.
struct Values {
  std::size_t count = 0;
  std::size_t filled = 0;
  double least = 0.0;
  double most = 0.0;
  double middle = 0.0;
  bool are_whole = true;
  std::optional<Unit> unit_in_cells(Dimension dimension) const {
    return rest.empty() ? std::nullopt : Unit::named(rest, dimension);
  }
  std::string rest;  ///< what follows the first number
};

Values values_of(const HeadTable& table, std::size_t column) {
  Values values;
  std::vector<double> numbers;
  for (const std::vector<std::string>& row : table.rows) {
    if (column >= row.size() || says_no_value(row[column])) continue;
    ++values.filled;
    const std::optional<NumberAndRest> number = number_at_start(row[column], table.decimal_sign);
    if (!number) continue;
    if (numbers.empty()) values.rest = number->rest;
    numbers.push_back(number->value);
    values.are_whole = values.are_whole && number->value == std::floor(number->value);
  }
  values.count = numbers.size();
  if (numbers.empty()) return values;
  std::sort(numbers.begin(), numbers.end());
  values.least = numbers.front();
  values.most = numbers.back();
  values.middle = numbers[numbers.size() / 2];
  return values;
}

struct GuessedUnit {
  Unit unit;
  std::string_view from;  ///< "header", "cells", "values"
  bool asks = false;
};

GuessedUnit unit_from_values(LogQuantity quantity, const Values& values) {
  const Dimension dimension = measured_dimension(quantity);
  if (quantity == LogQuantity::power) {
    // No appliance draws less than 5 W at its most and shows decimals of it: kilowatts, most likely.
    const bool kilowatts = !values.are_whole && values.most < 5.0;
    return {*Unit::named(kilowatts ? "kW" : "W", dimension), "values", kilowatts};
  }
  if (quantity == LogQuantity::current) {
    const bool milliamperes = values.most > 60.0;
    return {*Unit::named(milliamperes ? "mA" : "A", dimension), "values", milliamperes};
  }
  if (values.middle > 200.0) return {*Unit::named("K", dimension), "values", false};
  // A cold appliance whose middle is above 30 is one in degrees Fahrenheit.
  const bool fahrenheit = values.middle > 30.0;
  return {*Unit::named(fahrenheit ? "degF" : "degC", dimension), "values", fahrenheit};
}

GuessedUnit unit_of(LogQuantity quantity, const std::string& header, const Values& values) {
  if (const std::optional<Unit> unit = unit_in_header(words_of(header), quantity)) return {*unit, "header", false};
  if (const std::optional<Unit> unit = values.unit_in_cells(measured_dimension(quantity)))
    return {*unit, "cells", false};
  return unit_from_values(quantity, values);
}

/// What a nameless column of numbers may be.
std::optional<Meaning> meaning_of_values(const Values& values) {
  if (values.least < -2.0 && values.least > -80.0 && values.most < 150.0) return Meaning::temperature;
  if (values.least < -0.5) return std::nullopt;
  if (values.most > 45.0 || values.are_whole) return Meaning::power;
  return values.most < 5.0 && values.least < 0.5 ? Meaning::power : Meaning::temperature;
}

std::optional<LogQuantity> quantity_of(Meaning meaning) {
  switch (meaning) {
    case Meaning::coil:
      return LogQuantity::coil_temperature;
    case Meaning::cabinet:
    case Meaning::temperature:
      return LogQuantity::cabinet_temperature;
    case Meaning::power:
      return LogQuantity::power;
    case Meaning::current:
      return LogQuantity::current;
    default:
      return std::nullopt;
  }
}

bool is_taken(const std::vector<ChosenColumn>& chosen, LogQuantity quantity) {
  return std::any_of(chosen.begin(), chosen.end(), [&](const ChosenColumn& one) { return one.quantity == quantity; });
}

/// Words of a place alone ("freezer") say nothing of what was measured there; the values or the unit do.
Meaning refined(Meaning meaning, const std::string& header, const Values& values) {
  if (meaning != Meaning::cabinet && meaning != Meaning::coil) return meaning;
  const ColumnWords words = words_of(header);
  if (unit_in_header(words, LogQuantity::cabinet_temperature)) return meaning;
  if (unit_in_header(words, LogQuantity::power)) return Meaning::power;
  if (values.unit_in_cells(Dimension::temperature)) return meaning;
  const std::optional<Meaning> by_values = meaning_of_values(values);
  return by_values == Meaning::power && values.most > 45.0 ? Meaning::power : meaning;
}

/// Seen in the first lines of a log: a coil swings by more than the air around it, and melts now and then.
bool looks_like_coil(const Values& values) {
  constexpr double coil_swing_kelvin = 15.0;  // common practice, no source
  constexpr std::size_t fewest = 3;           // of fewer rows nobody sees a swing
  if (values.count < fewest) return false;
  const bool in_fahrenheit = values.middle > 30.0;
  const double per_kelvin = in_fahrenheit ? 1.8 : 1.0;
  const double melting = in_fahrenheit ? 32.0 : 0.0;
  return values.most - values.least > coil_swing_kelvin * per_kelvin && values.least < melting - 10.0 * per_kelvin &&
         values.most > melting - 1.0 * per_kelvin;
}

/// Degrees below freezing: nothing else in a log of an appliance looks so.
bool is_of_the_cold(const Values& values) {
  return values.least < -2.0 && meaning_of_values(values) == Meaning::temperature;
}

class Guess {
 public:
  Guess(const HeadTable& table, std::vector<LogFinding>& findings) : table_(table), findings_(findings) {}

  void take(std::size_t column, LogQuantity quantity, std::string_view from) {
    chosen_.push_back({column, quantity, std::nullopt});
    findings_.push_back({"column-guessed",
                         {{"quantity", std::string(name_of(quantity))},
                          {"column", name_of_column(table_, column)},
                          {"from", std::string(from)}},
                         from == "values"});
  }

  std::vector<ChosenColumn> chosen_;

 private:
  const HeadTable& table_;
  std::vector<LogFinding>& findings_;
};

/// Of temperatures whose place no word names, the one that swings most is the coil's where it looks like one; the first
/// of the others is the cabinet's.
void take_temperatures(const HeadTable& table, std::vector<std::size_t> columns, std::string_view from, Guess& guess) {
  const auto swing = [&](std::size_t column) {
    const Values values = values_of(table, column);
    return values.most - values.least;
  };
  const auto widest = std::max_element(columns.begin(), columns.end(),
                                       [&](std::size_t a, std::size_t b) { return swing(a) < swing(b); });
  if (widest != columns.end() && looks_like_coil(values_of(table, *widest)) &&
      !is_taken(guess.chosen_, LogQuantity::coil_temperature)) {
    guess.take(*widest, LogQuantity::coil_temperature, "values");
    columns.erase(widest);
  }
  if (!columns.empty() && !is_taken(guess.chosen_, LogQuantity::cabinet_temperature))
    guess.take(columns.front(), LogQuantity::cabinet_temperature, from);
}

std::vector<ChosenColumn> guessed(const HeadTable& table, const std::vector<std::size_t>& taken,
                                  std::vector<LogFinding>& findings) {
  Guess guess(table, findings);
  std::vector<std::size_t> nameless;
  std::vector<std::size_t> temperatures;  // of a place that no word names
  for (std::size_t column = 0; column < table.width; ++column) {
    if (std::find(taken.begin(), taken.end(), column) != taken.end()) continue;
    const Values values = values_of(table, column);
    if (values.count * 2 < std::max<std::size_t>(values.filled, 1)) continue;
    const Meaning meaning = refined(words_of(header_of(table, column)).meaning, header_of(table, column), values);
    const std::optional<LogQuantity> quantity = quantity_of(meaning);
    if (meaning == Meaning::temperature)
      temperatures.push_back(column);
    else if (quantity && !is_taken(guess.chosen_, *quantity))
      guess.take(column, *quantity, "header");
    else if (meaning == Meaning::unknown)
      nameless.push_back(column);
  }
  // Only where no header spoke do the values.
  const bool headers_spoke = !guess.chosen_.empty() || !temperatures.empty();
  if (!headers_spoke)
    for (const std::size_t column : nameless)
      if (const std::optional<Meaning> meaning = meaning_of_values(values_of(table, column))) {
        if (*meaning == Meaning::temperature)
          temperatures.push_back(column);
        else if (!is_taken(guess.chosen_, *quantity_of(*meaning)))
          guess.take(column, *quantity_of(*meaning), "values");
      }
  take_temperatures(table, temperatures, headers_spoke ? "header" : "values", guess);
  return guess.chosen_;
}

}  // namespace

std::vector<ChosenColumn> choose_quantities(const HeadTable& table, const std::vector<std::size_t>& taken,
                                            const std::vector<ChosenColumn>& picked,
                                            std::vector<LogFinding>& findings) {
  std::vector<ChosenColumn> chosen = picked.empty() ? guessed(table, taken, findings) : picked;
  std::sort(chosen.begin(), chosen.end(),
            [](const ChosenColumn& a, const ChosenColumn& b) { return a.index < b.index; });
  for (ChosenColumn& column : chosen) {
    if (column.unit) continue;
    const GuessedUnit guess = unit_of(column.quantity, header_of(table, column.index), values_of(table, column.index));
    column.unit = guess.unit;
    findings.push_back({guess.from == "values" ? std::string_view("unit-guessed") : std::string_view("unit-written"),
                        {{"quantity", std::string(name_of(column.quantity))},
                         {"column", name_of_column(table, column.index)},
                         {"unit", guess.unit.symbol()},
                         {"from", std::string(guess.from)}},
                        guess.asks});
  }
  for (std::size_t column = 0; column < table.width; ++column) {
    const bool is_read =
        std::find(taken.begin(), taken.end(), column) != taken.end() ||
        std::any_of(chosen.begin(), chosen.end(), [&](const ChosenColumn& one) { return one.index == column; });
    if (is_read) continue;
    const std::string name = name_of_column(table, column);
    if (picked.empty() && !is_taken(chosen, LogQuantity::coil_temperature) && is_of_the_cold(values_of(table, column)))
      findings.push_back(
          {"column-not-used", {{"column", name}, {"looks_like", std::string(name_of(LogQuantity::coil_temperature))}}});
    else
      findings.push_back({"column-not-used", {{"column", name}}});
  }
  return chosen;
}

}  // namespace ohmwright::cycles
