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

/// Three digits, but a whole number up to a million in full: "3870", never "3.87e+03".
std::string three_digits(double value) {
  const double size = std::abs(value);
  return size >= 1000.0 && size < 1e6 ? fmt::format("{:.0f}", value) : fmt::format("{:.3g}", value);
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
  fmt::dynamic_format_arg_store<fmt::format_context> fields;
  for (const FindingArgument& argument : arguments) {
    const std::string name(argument.name);
    if (const auto* value = std::get_if<AnyQuantity>(&argument.value))
      fields.push_back(fmt::arg(name.c_str(), quantity(*value)));
    else if (const auto* number = std::get_if<double>(&argument.value))
      fields.push_back(fmt::arg(name.c_str(), three_digits(*number)));
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
  options.significant_digits = value.dimension() == Dimension::ratio ? 2 : significant_digits;
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

std::string percent_text(double probability) {
  const double percent = 100.0 * probability;
  if (percent > 99.9) return unbroken("> 99.9 %");
  if (percent < 0.1) return unbroken("< 0.1 %");
  return percent_digits(percent);
}

}  // namespace ohmwright
