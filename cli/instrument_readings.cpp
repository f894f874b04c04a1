#include "instrument_readings.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/instrument/live_inputs.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/safety/live_readings.hpp>

#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// "tcp://192.0.2.7#current": the address, and the measurand behind the last "#".
std::pair<std::string, std::string> address_and_measurand(const std::string& typed) {
  const std::size_t mark = typed.rfind('#');
  if (mark == std::string::npos) return {typed, {}};
  return {typed.substr(0, mark), typed.substr(mark + 1)};
}

const MeasurandDescriptor& measurand_to_read(const Descriptor& descriptor, const std::string& name) {
  if (name.empty()) return descriptor.measurands.front();
  const std::uint16_t index = index_of(descriptor.measurands, name);
  if (index != not_found) return descriptor.measurands[index];
  std::vector<std::string_view> known;
  for (const MeasurandDescriptor& row : descriptor.measurands) known.push_back(row.id);
  throw InputError(with_article(descriptor.id) + " has no measurand " + ohmwright::quoted(name) + "; expected " +
                   one_of(known) + " behind the # of --from");
}

}  // namespace

std::chrono::milliseconds typed_patience(const Arguments& arguments) {
  constexpr double most_seconds = 600.0;
  const std::string text = arguments.value("--timeout", "5s");
  const double seconds = parse_stated_value(text, Dimension::duration).value.value_in_si();
  if (!(seconds > 0.0 && seconds <= most_seconds))
    throw InputError("--timeout takes a time from above 0 to 600 s, such as 5s, got " + ohmwright::quoted(text));
  return std::chrono::milliseconds(std::lround(std::ceil(seconds * 1000.0)));
}

void refuse_live_instrument(const Arguments& arguments, const Environment& environment, const std::string& address) {
  const std::string name = arguments.value("--meter");
  instrument::refuse_live_inputs(address, is_file_text(name) ? parse_document(name, "the meter at hand")
                                                             : read_document(meter_file(environment, name)));
}

instrument::Wanted wanted_of(const Arguments& arguments, const Environment& environment, Dimension dimension) {
  const bool four_wires = arguments.has("--four-wire");
  if (four_wires && dimension != Dimension::resistance)
    throw InputError("--four-wire is for ohms, and what is read here is " + std::string(phrase_of(dimension)) +
                     "; leave it out");
  instrument::Wanted wanted{.dimension = dimension, .four_wires = four_wires};
  const Meter meter = chosen_meter(environment, arguments.value("--meter"));
  const MeterFunction* function = function_for(meter, dimension);
  if (function != nullptr && !function->ranges.empty())
    wanted.zero_error = accuracy_half_width(function->ranges.front(), 0.0);
  return wanted;
}

void note_four_wires(const Arguments& arguments, Reading& reading) {
  if (!arguments.has("--four-wire")) return;
  reading.leads = StatedValue{AnyQuantity(Dimension::resistance, 0.0), std::nullopt, Unit::si(Dimension::resistance)};
}

bool is_read_live_from_instrument(const Arguments& arguments, const Descriptor& descriptor) {
  if (!arguments.has("--from")) return false;
  const std::string name = address_and_measurand(arguments.value("--from")).second;
  const auto& words = arguments.operands;
  return is_read_live(descriptor, measurand_to_read(descriptor, name).id) ||
         std::find(words.begin(), words.end(), "--live") != words.end();
}

std::string text_shown(const Observed& observed) {
  const auto* number = std::get_if<StatedValue>(&observed);
  return number == nullptr ? "OL" : exact_text(number->value);
}

std::optional<Reading> reading_from_instrument(const Arguments& arguments, const Environment& environment,
                                               const Descriptor& descriptor) {
  if (arguments.has("--four-wire") && !arguments.has("--from"))
    throw InputError("--four-wire says how the instrument of --from reads; a typed reading by four wires: --leads 0");
  if (!arguments.has("--from")) return std::nullopt;
  const auto [address, name] = address_and_measurand(arguments.value("--from"));
  const MeasurandDescriptor& measurand = measurand_to_read(descriptor, name);
  if (is_read_live(descriptor, measurand.id)) refuse_live_instrument(arguments, environment, address);
  const auto readout =
      instrument::open_readout(instrument::parse_address(address),
                               wanted_of(arguments, environment, measurand.dimension), typed_patience(arguments));
  Reading reading{instrument_label, std::string(measurand.id), instrument::read_settled(*readout).observed};
  note_four_wires(arguments, reading);
  return reading;
}

ValueSource value_source(const Arguments& arguments, const Environment& environment) {
  if (!arguments.has("--from")) return {};
  const std::string text = address_and_measurand(arguments.value("--from")).first;
  const instrument::Address address = instrument::parse_address(text);
  const std::chrono::milliseconds patience = typed_patience(arguments);
  return [&arguments, &environment, text, address, patience](Dimension dimension) {
    if (instrument::is_read_with_power(dimension)) refuse_live_instrument(arguments, environment, text);
    const instrument::Wanted wanted = wanted_of(arguments, environment, dimension);
    return instrument::read_settled(*instrument::open_readout(address, wanted, patience)).observed;
  };
}

std::string shown_by_instrument(const ValueSource& source, Probe probe, bool live) {
  if (probe == Probe::ohms && live) throw InputError("ohms are never read live");
  return text_shown(source(locate::dimension_of(probe)));
}

}  // namespace ohmwright::cli
