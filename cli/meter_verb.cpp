#include <chrono>
#include <variant>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ohmwright/instrument/live_inputs.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "exit_codes.hpp"
#include "instrument_readings.hpp"
#include "kind_files.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

Dimension typed_dimension(const Arguments& arguments) {
  const std::string name = arguments.operands.size() > 1 ? arguments.operands[1] : "resistance";
  if (const std::optional<Dimension> dimension = dimension_named(name)) return *dimension;
  throw InputError(
      "expected a quantity, such as resistance, temperature, voltage, current, capacitance or frequency, got " +
      ohmwright::quoted(name));
}

/// Readings as `check --readings` takes them (schemas/readings.schema.json).
std::string readings_json(const instrument::SettledReading& settled, const std::string& measurand, bool four_wires) {
  nlohmann::ordered_json reading{{"label", instrument_label}};
  if (!measurand.empty()) reading["measurand"] = measurand;
  reading["value"] = text_shown(settled.observed);
  if (four_wires) reading["leads"] = "0 ohm";
  return nlohmann::ordered_json{{"readings", {reading}}}.dump(2) + '\n';
}

/// What to do before the probes touch anything: of a live reading other than of a dead one.
std::string caution_page(Dimension dimension, PageStyle style) {
  const Sentences say{UnitPreferences{}};
  PageLayout page(style);
  if (instrument::is_read_with_power(dimension)) {
    for (const std::string_view id : cautions_of_step("read-live")) page.block(say(caution_named(id)->english));
    page.block(say(OHMWRIGHT_TEXT("Local codes and licensed practice come first.")));
  } else {
    page.block(say(OHMWRIGHT_TEXT(
        "Before you connect it: unplug the appliance, prove it dead, lift a lead of the part. Local codes and "
        "licensed practice come first.")));
    if (dimension == Dimension::capacitance) page.block(say(caution_named("capacitor-charge")->english));
  }
  page.blank_line();
  return page.take();
}

std::string how_it_settled(const instrument::SettledReading& settled, const Sentences& say) {
  if (settled.agreeing == 1)
    return say(OHMWRIGHT_TEXT("It gave one value and ended: that it had settled is its own word."));
  return say(OHMWRIGHT_TEXT("Settled: {count} values in {seconds} s agree; values before them: {passed}."),
             {{"count", std::to_string(settled.agreeing)},
              {"seconds", fmt::format("{:.1f}", std::chrono::duration<double>(settled.span).count())},
              {"passed", std::to_string(settled.passed_over)}});
}

/// `name` is empty where it did not say it; a program has none to say.
std::string page_of(const instrument::SettledReading& settled, const std::string& name, bool has_a_name,
                    PageStyle style) {
  const Sentences say{UnitPreferences{}};
  PageLayout page(style);
  const auto* number = std::get_if<StatedValue>(&settled.observed);
  const std::string shown = number == nullptr ? "OL" : say.quantity(number->value);
  if (name.empty() && has_a_name) page.block(say(OHMWRIGHT_TEXT("The instrument did not name itself.")));
  if (name.empty())
    page.block(say(OHMWRIGHT_TEXT("It shows {value}."), {{"value", shown}}));
  else
    page.block(say(OHMWRIGHT_TEXT("{instrument} shows {value}."), {{"instrument", printable(name)}, {"value", shown}}));
  page.block(how_it_settled(settled, say));
  return page.take();
}

/// What the meter file of `--meter` cannot have shown is told so: it was another meter, or another unit.
void refuse_beyond_its_meter(const Arguments& arguments, const Environment& environment, Dimension dimension,
                             const instrument::SettledReading& settled) {
  const auto* number = std::get_if<StatedValue>(&settled.observed);
  if (!arguments.has("--meter") || number == nullptr) return;
  const Meter meter = chosen_meter(environment, arguments.value("--meter"));
  const MeterFunction* function = function_for(meter, dimension);
  const std::string name = "the meter " + ohmwright::quoted(meter.name);
  if (function == nullptr)
    throw InputError(name + " says nothing of " + std::string(phrase_of(dimension)) + "; is it the right meter file?");
  if (range_for(*function, std::nullopt, number->value) == nullptr)
    throw InputError(name + " shows " + std::string(phrase_of(dimension)) + " up to " +
                     display_text(function->ranges.back().full_scale) + ", and " + display_text(number->value) +
                     " came; is it the right meter file, and its unit?");
}

int run_meter(const Arguments& arguments, Environment& environment) {
  const std::string address = arguments.operands[0];
  const Dimension dimension = typed_dimension(arguments);
  if (instrument::is_read_with_power(dimension)) {
    refuse_live_instrument(arguments, environment, address);
    if (!arguments.has("--live-agreed"))
      throw InputError(
          "volts and amperes are read live: live measurement is for those qualified for it, with insulated "
          "probes, one hand at a time; if you are and have agreed to that, say --live-agreed");
  }
  const instrument::Address parsed = instrument::parse_address(address);
  const std::chrono::milliseconds patience = typed_patience(arguments);
  environment.err << caution_page(dimension, environment.page) << std::flush;
  instrument::Wanted wanted = wanted_of(arguments, environment, dimension);
  wanted.direct_supply = arguments.has("--dc");
  const auto readout = instrument::open_readout(parsed, wanted, patience);
  const instrument::SettledReading settled = instrument::read_settled(*readout);
  refuse_beyond_its_meter(arguments, environment, dimension, settled);
  deliver(arguments.value("--format", "text") == "json"
              ? readings_json(settled, arguments.value("--measurand"), wanted.four_wires)
              : page_of(settled, readout->name(), parsed.way != instrument::Address::Way::program, environment.page),
          arguments, environment);
  return exit_done;
}

}  // namespace

VerbSpec meter_verb() {
  return {
      .name = "meter",
      .summary = OHMWRIGHT_TEXT("Read a value straight from an instrument, once it has settled"),
      .example = "ohmwright meter tcp://192.0.2.7 resistance --format json --out reading.json",
      .operands = {{"ADDRESS",
                    OHMWRIGHT_TEXT("tcp://HOST[:5025], serial:DEVICE[?baud=9600] or program:COMMAND that prints "
                                   "{\"value\": \"11.45 kohm\"}, once when it has settled or again and again; the "
                                   "command is cut at its blanks, no shell reads it; ?unnamed behind tcp: or "
                                   "serial: (&unnamed behind baud) asks no *IDN? of a meter that knows none"),
                    true, false},
                   {"QUANTITY",
                    OHMWRIGHT_TEXT("resistance (default), temperature, voltage, current, capacitance or frequency"),
                    false, false}},
      .options =
          {
              {"--four-wire", "", OHMWRIGHT_TEXT("Ohms by four wires, so that the leads do not count"), {}},
              {"--dc", "", OHMWRIGHT_TEXT("Volts or amperes of direct supply; else alternating"), {}},
              {"--timeout", "TIME", OHMWRIGHT_TEXT("Time that it has for each answer (default 5s)"), {}},
              {"--meter",
               "NAME|FILE",
               OHMWRIGHT_TEXT("Its meter file: how good it is about zero, and whether its inputs float and are rated"),
               {}},
              {"--live-agreed",
               "",
               OHMWRIGHT_TEXT("You are qualified for live measurement and agreed to its caution"),
               {}},
              {"--measurand", "ID", OHMWRIGHT_TEXT("In JSON: what was read, as the kind calls it"), {}},
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default), or json for check --readings"), {"text", "json"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_meter,
  };
}

}  // namespace ohmwright::cli
