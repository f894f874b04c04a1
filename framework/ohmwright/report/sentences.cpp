#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <libintl.h>

#include <fmt/args.h>
#include <fmt/format.h>

#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

namespace {

/// Three digits, but no finer than a hundredth, and a whole number up to a million in full: "3870", never "3.87e+03";
/// "0.71", since no percent of the trade is known to a thousandth.
std::string three_digits(double value) {
  const double size = std::abs(value);
  if (size >= 0.1 && size < 1.0) return fmt::format("{:.2f}", value);
  return size >= 1000.0 && size < 1e6 ? fmt::format("{:.0f}", value) : fmt::format("{:.3g}", value);
}

/// A named number. A chance in percent is never shown as none or as certain, and no percent finer than a hundredth.
std::string spoken_number(std::string_view name, double value) {
  if (name.ends_with("chance_percent")) {
    if (value > 99.9) return "> 99.9";
    if (value < 0.1) return "< 0.1";
  }
  if (name.ends_with("percent") && std::abs(value) < 0.1)
    return std::abs(value) < 0.005 ? "0" : fmt::format("{:.2f}", value);
  return three_digits(value);
}

/// A number and its unit stay on one line.
std::string unbroken(std::string text) {
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1))
    text.replace(at, 1, unbroken_space);
  return text;
}

/// Temperatures and their differences are shown to a tenth of a degree, without a prefix: no thermometer of the trade
/// says more. What is smaller than that keeps its first digit.
void to_tenths(AnyQuantity value, DisplayOptions& options) {
  const Unit unit = options.units.unit_for({value.dimension(), 1.0}, 3);
  const double size = std::abs(unit.from_si(value.value_in_si()));
  const bool is_point = value.dimension() == Dimension::temperature;
  options.fixed_unit = unit;
  options.significant_digits = is_point ? 3 : size < 1.0 ? 1 : 2;
  const double rest = is_point ? size / 10.0 : size;
  if (rest >= 10.0) options.significant_digits += static_cast<int>(std::floor(std::log10(rest)));
}

constexpr int digits_of_a_computed_value = 4;

/// Plates state volts, watts and amperes with two digits; everything else that is set has one.
int most_digits_of_a_setting(Dimension dimension) {
  const bool of_a_plate =
      dimension == Dimension::voltage || dimension == Dimension::power || dimension == Dimension::current;
  return of_a_plate ? 2 : 1;
}

/// The digits of a value that has so few that somebody set it: a limit of 0.2 ohm, a range to 60 megohms, 120 V; 0 for
/// every other value.
int digits_of_a_setting(AnyQuantity value, const UnitPreferences& units) {
  constexpr double rounding = 1e-8;
  const double number = std::abs(units.unit_for(value, digits_of_a_computed_value).from_si(value.value_in_si()));
  if (!(number > 0.0) || !std::isfinite(number)) return 0;
  double in_last_place = number / std::pow(10.0, std::floor(std::log10(number * (1.0 + rounding))));
  for (int digits = 1; digits <= most_digits_of_a_setting(value.dimension()); ++digits, in_last_place *= 10.0)
    if (std::abs(in_last_place - std::round(in_last_place)) < rounding * in_last_place) return digits;
  return 0;
}

/// Near enough to be compared by eye, digit by digit.
bool are_of_one_size(AnyQuantity a, AnyQuantity b) {
  constexpr double factor = 5.0;
  const double larger = std::max(std::abs(a.value_in_si()), std::abs(b.value_in_si()));
  return a.dimension() == b.dimension() &&
         larger <= factor * std::min(std::abs(a.value_in_si()), std::abs(b.value_in_si()));
}

/// In a sentence a setting is shown as it was set, what was read or computed with four digits, as in tables; and a
/// setting likewise where the sentence says a computed value of its size beside it.
int digits_in_sentence(AnyQuantity value, std::string_view pattern, std::span<const FindingArgument> arguments,
                       const UnitPreferences& units) {
  const auto is_computed_and_beside = [&](const FindingArgument& argument) {
    const auto* other = std::get_if<AnyQuantity>(&argument.value);
    return other != nullptr && are_of_one_size(*other, value) && digits_of_a_setting(*other, units) == 0 &&
           pattern.find("{" + std::string(argument.name) + "}") != std::string_view::npos;
  };
  const int set = digits_of_a_setting(value, units);
  return set > 0 && std::none_of(arguments.begin(), arguments.end(), is_computed_and_beside)
             ? set
             : digits_of_a_computed_value;
}

std::string percent_digits(double percent) {
  const int decimals = percent > 10.0 && percent < 90.0 ? 0 : 1;
  return unbroken(fmt::format("{:.{}f} %", percent, decimals));
}

}  // namespace

std::string Sentences::operator()(std::string_view pattern, std::span<const FindingArgument> arguments) const {
  return in_domain(framework_text_domain, pattern, arguments);
}

std::string Sentences::in_domain(std::string_view domain, std::string_view pattern,
                                 std::span<const FindingArgument> arguments) const {
  if (pattern.empty()) return {};
  std::string english(pattern);
  const char* translated = ::dgettext(std::string(domain).c_str(), english.c_str());
  // What core words for every kind is in the framework's catalogue; a kind's own, asked first, may word it anew.
  if (translated == english.c_str()) translated = ::dgettext(framework_text_domain, english.c_str());
  fmt::dynamic_format_arg_store<fmt::format_context> fields;
  for (const FindingArgument& argument : arguments) {
    const std::string name(argument.name);
    if (const auto* value = std::get_if<AnyQuantity>(&argument.value))
      fields.push_back(
          fmt::arg(name.c_str(), quantity(*value, digits_in_sentence(*value, pattern, arguments, units_))));
    else if (const auto* number = std::get_if<double>(&argument.value))
      fields.push_back(fmt::arg(name.c_str(), spoken_number(name, *number)));
    else
      fields.push_back(fmt::arg(name.c_str(), std::get<std::string>(argument.value)));
  }
  // A wrong field in a translation, or in a plugin's text, must not cost the answer.
  for (const char* sentence : {translated, english.c_str()}) {
    try {
      return fmt::vformat(sentence, fields);
    } catch (const fmt::format_error&) {
      continue;
    }
  }
  return english;
}

std::string Sentences::quantity(AnyQuantity value, int significant_digits) const {
  if (!std::isfinite(value.value_in_si())) return three_digits(value.value_in_si());
  DisplayOptions options;
  options.significant_digits =
      value.dimension() == Dimension::ratio ? std::min(2, significant_digits) : significant_digits;
  options.spelling = Spelling::screen;
  options.units = units_;
  if (value.dimension() == Dimension::temperature || value.dimension() == Dimension::temperature_difference)
    to_tenths(value, options);
  return unbroken(display_text(value, options));
}

std::string Sentences::stated(const StatedValue& value) const {
  DisplayOptions options;
  options.spelling = Spelling::screen;
  options.units = units_;
  return unbroken(display_text(value, options));
}

std::string language_of_texts() {
  // A catalogue translates this text into the code of its own language.
  return Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("en"));
}

std::string percent_text(double probability) {
  const double percent = 100.0 * probability;
  if (percent > 99.9) return unbroken("> 99.9 %");
  if (percent < 0.1) return unbroken("< 0.1 %");
  return percent_digits(percent);
}

}  // namespace ohmwright
