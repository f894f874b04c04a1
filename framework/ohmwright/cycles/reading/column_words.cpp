#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include <ohmwright/cycles/reading/column_words.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright::cycles {

namespace {

using Meaning = ColumnWords::Meaning;

struct Word {
  std::string_view start;  ///< of a word of the header, in lower case
  Meaning meaning;
  bool is_whole;  ///< the header's word is this and no longer
};

// In the order in which they decide: what is not wanted first ("reactive power", "room temperature", "battery
// voltage").
constexpr std::array known_words{
    Word{"reactive", Meaning::other, false},
    Word{"apparent", Meaning::other, false},
    Word{"factor", Meaning::other, false},
    Word{"humid", Meaning::other, false},
    Word{"energy", Meaning::other, false},
    Word{"kwh", Meaning::other, true},
    Word{"wh", Meaning::other, true},
    Word{"volt", Meaning::other, false},
    Word{"battery", Meaning::other, false},
    Word{"rssi", Meaning::other, false},
    Word{"pressure", Meaning::other, false},
    Word{"sequence", Meaning::other, false},
    Word{"counter", Meaning::other, false},
    Word{"dew", Meaning::other, false},
    Word{"ambient", Meaning::other, true},
    Word{"room", Meaning::other, true},
    Word{"outdoor", Meaning::other, false},
    Word{"kitchen", Meaning::other, true},
    Word{"acceleration", Meaning::other, false},
    Word{"setpoint", Meaning::other, false},
    Word{"current", Meaning::current, false},
    Word{"amp", Meaning::current, false},
    Word{"strom", Meaning::current, true},
    Word{"courant", Meaning::current, false},
    Word{"corriente", Meaning::current, false},
    Word{"irms", Meaning::current, true},
    Word{"power", Meaning::power, false},
    Word{"watt", Meaning::power, false},
    Word{"leistung", Meaning::power, false},
    Word{"puissance", Meaning::power, false},
    Word{"potencia", Meaning::power, false},
    Word{"potenza", Meaning::power, false},
    Word{"vermogen", Meaning::power, false},
    Word{"load", Meaning::power, true},
    Word{"use", Meaning::power, true},
    Word{"usage", Meaning::power, true},
    Word{"coil", Meaning::coil, false},
    Word{"evap", Meaning::coil, false},
    Word{"verdampfer", Meaning::coil, false},
    Word{"defrost", Meaning::coil, false},
    Word{"cabinet", Meaning::cabinet, false},
    Word{"freezer", Meaning::cabinet, false},
    Word{"fridge", Meaning::cabinet, false},
    Word{"compartment", Meaning::cabinet, false},
    Word{"interior", Meaning::cabinet, false},
    Word{"air", Meaning::cabinet, true},
    Word{"temp", Meaning::temperature, false},
    Word{"temperatur", Meaning::temperature, false},
    Word{"refrigerator", Meaning::power, false},
    Word{"timestamp", Meaning::time, false},
    Word{"datetime", Meaning::time, false},
    Word{"unix", Meaning::time, false},
    Word{"epoch", Meaning::time, false},
    Word{"localminute", Meaning::time, false},
    Word{"elapsed", Meaning::time, false},
    Word{"zeitstempel", Meaning::time, false},
    Word{"date", Meaning::date, true},
    Word{"datum", Meaning::date, true},
    Word{"fecha", Meaning::date, true},
    Word{"data", Meaning::date, true},
    Word{"time", Meaning::clock, true},
    Word{"zeit", Meaning::clock, true},
    Word{"uhrzeit", Meaning::clock, true},
    Word{"heure", Meaning::clock, true},
    Word{"hora", Meaning::clock, true},
    Word{"tijd", Meaning::clock, true},
    Word{"ora", Meaning::clock, true},
    Word{"clock", Meaning::clock, true},
    Word{"seconds", Meaning::time, true},
    Word{"minutes", Meaning::time, true},
    Word{"hours", Meaning::time, true},
    Word{"p", Meaning::power, true},
    Word{"kw", Meaning::power, true},
    Word{"w", Meaning::power, true},
    Word{"i", Meaning::current, true},
    Word{"a", Meaning::current, true},
    Word{"t", Meaning::temperature, true},
};

bool is_word_byte(char c) {
  return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80 || (c >= '0' && c <= '9');
}

std::vector<std::string> split_words(std::string_view header) {
  std::vector<std::string> found;
  std::string word;
  char before = ' ';
  for (const char c : header) {
    const bool capital = c >= 'A' && c <= 'Z' && before >= 'a' && before <= 'z';  // "coilTemp"
    const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if ((capital || !is_word_byte(lower)) && !word.empty()) found.push_back(std::exchange(word, {}));
    if (is_word_byte(lower)) word += lower;
    before = c;
  }
  if (!word.empty()) found.push_back(word);
  return found;
}

/// What stands in brackets, or behind the last "_", "/" or blank.
std::string unit_text_of(std::string_view header) {
  for (const auto& [open, close] : {std::pair{'[', ']'}, std::pair{'(', ')'}}) {
    const std::size_t start = header.find(open);
    const std::size_t end = header.find(close, start == std::string_view::npos ? 0 : start);
    if (start != std::string_view::npos && end != std::string_view::npos)
      return std::string(without_blanks_around(header.substr(start + 1, end - start - 1)));
  }
  const std::size_t mark = header.find_last_of("_/ ,");
  if (mark == std::string_view::npos) return std::string(header);
  return std::string(without_blanks_around(header.substr(mark + 1)));
}

/// "Temp", "°F", "SEN" of "Temp, °F (SEN)"; the degree sign stays with the letter behind it.
std::vector<std::string> parts_of(std::string_view header) {
  std::vector<std::string> parts;
  bool is_open = false;  // the part before may go on: "deg F", "° F"
  while (!header.empty()) {
    const std::size_t end = std::min(header.find_first_of(" \t,;:|/()[]{}_"), header.size());
    if (end > 0) {
      const std::string part(header.substr(0, end));
      if (is_open)
        parts.back() += part;
      else
        parts.push_back(part);
      const std::string lower = lower_case(part);
      is_open = lower == "deg" || lower == "deg." || lower == "\u00B0" || lower == "\u00BA";
      if (is_open) parts.back() = "deg";
    }
    header.remove_prefix(std::min(end + 1, header.size()));
  }
  return parts;
}

/// Whether a word is a unit wherever it stands: a letter alone may be a channel's ("Probe C", "Phase A").
bool is_no_letter_alone(std::string_view part) { return part.size() > 1; }

/// The unit that parts of a header name; nothing where two of them contradict each other.
std::optional<Unit> unit_in_parts(const std::vector<std::string>& parts, Dimension dimension) {
  std::optional<Unit> found;
  for (const std::string& part : parts) {
    const std::optional<Unit> unit = is_no_letter_alone(part) ? Unit::named(part, dimension) : std::nullopt;
    if (!unit) continue;
    if (found && !(*found == *unit)) return std::nullopt;
    found = unit;
  }
  return found;
}

}  // namespace

ColumnWords words_of(std::string_view header) {
  ColumnWords result;
  const std::vector<std::string> parts = split_words(header);
  result.unit_text = unit_text_of(header);
  result.parts = parts_of(header);
  for (const Word& word : known_words)
    for (const std::string& part : parts)
      if (result.meaning == Meaning::unknown && (word.is_whole ? part == word.start : part.starts_with(word.start)))
        result.meaning = word.meaning;
  if (result.meaning == Meaning::unknown && unit_in_parts(result.parts, Dimension::temperature))
    result.meaning = Meaning::temperature;  // "Verd. °C": nothing but a temperature has degrees
  // "Current temperature" is no current.
  const bool has_temperature =
      std::any_of(parts.begin(), parts.end(), [](const std::string& part) { return part.starts_with("temp"); });
  if (result.meaning == Meaning::current && has_temperature) result.meaning = Meaning::temperature;
  // "t [s]" is a time, "T [°C]" a temperature.
  constexpr std::array time_units{"s", "sec", "ms", "min", "h"};
  const bool is_letter_t = !parts.empty() && parts.front() == "t" && parts.size() <= 2;
  if (result.meaning == Meaning::temperature && is_letter_t &&
      std::find(time_units.begin(), time_units.end(), result.unit_text) != time_units.end())
    result.meaning = Meaning::time;
  // "T2", "P1", "Temp1": a letter and a number.
  if (result.meaning == Meaning::unknown && parts.size() == 1 && parts[0].size() == 2 && parts[0][1] >= '0' &&
      parts[0][1] <= '9') {
    if (parts[0][0] == 't') result.meaning = Meaning::temperature;
    if (parts[0][0] == 'p') result.meaning = Meaning::power;
    if (parts[0][0] == 'i') result.meaning = Meaning::current;
  }
  return result;
}

std::optional<Unit> unit_in_header(const ColumnWords& header, LogQuantity quantity) {
  if (const std::optional<Unit> unit = Unit::named(header.unit_text, measured_dimension(quantity))) return unit;
  // Names of columns are often written small: "power_kw".
  const std::string lower = lower_case(header.unit_text);
  if (quantity == LogQuantity::power && lower == "kw") return Unit::named("kW", Dimension::power);
  if (quantity == LogQuantity::power && lower == "w") return Unit::named("W", Dimension::power);
  if (quantity == LogQuantity::current && lower == "ma") return Unit::named("mA", Dimension::current);
  if (quantity == LogQuantity::current && lower == "a") return Unit::named("A", Dimension::current);
  if (measured_dimension(quantity) == Dimension::temperature && lower == "f")
    return Unit::named("degF", Dimension::temperature);
  return unit_in_parts(header.parts, measured_dimension(quantity));
}

}  // namespace ohmwright::cycles
