#include <charconv>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/instrument/readout.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::instrument {

namespace {

// SCPI-1999, volume 1, 7.2.1.4 and 7.2.1.5
constexpr double scpi_infinity = 9.9e37;
constexpr double scpi_no_number = 9.91e37;

std::string request_for(const Wanted& wanted) {
  const std::string supply = wanted.direct_supply ? ":DC?" : ":AC?";
  switch (wanted.dimension) {
    case Dimension::resistance:
      return wanted.four_wires ? "MEAS:FRES?" : "MEAS:RES?";
    case Dimension::temperature:
      return "MEAS:TEMP?";
    case Dimension::voltage:
      return "MEAS:VOLT" + supply;
    case Dimension::current:
      return "MEAS:CURR" + supply;
    case Dimension::capacitance:
      return "MEAS:CAP?";
    case Dimension::frequency:
      return "MEAS:FREQ?";
    default:
      throw InputError("no instrument is asked for " + std::string(phrase_of(wanted.dimension)) +
                       "; type what it shows");
  }
}

/// A good wire reads some counts to either side of 0: what is no further below it than the instrument is good for is 0.
double taken_for_zero(double value, const Wanted& wanted) {
  const bool is_zero = value < 0.0 && !may_be_negative(wanted.dimension) && -value <= wanted.zero_error;
  return is_zero ? 0.0 : value;
}

std::string_view without_blanks(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

class ScpiReadout : public Readout {
 public:
  ScpiReadout(std::unique_ptr<Channel> channel, const Wanted& wanted)
      : channel_(std::move(channel)),
        wanted_(wanted),
        request_(request_for(wanted)),
        unit_(Unit::si(wanted.dimension)) {
    if (wanted.its_name) ask_for_name();
    if (wanted.dimension == Dimension::temperature) unit_ = unit_of_temperature(ask("UNIT:TEMP?"));
  }

  std::string name() override { return name_; }

  std::optional<Observed> next() override {
    const std::string answer = ask_for_value();
    std::string_view text = without_blanks(answer);
    if (text.starts_with('+')) text.remove_prefix(1);
    double number = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{}) refuse(answer, "expected a number");
    const std::string_view unit_text = without_blanks(text.substr(static_cast<std::size_t>(end - text.data())));
    if (!std::isfinite(number) || std::abs(number) >= scpi_no_number * (1.0 - 1e-9))
      refuse(answer, "that is how it says that it has no number");
    if (std::abs(number) >= scpi_infinity * (1.0 - 1e-9)) return over_range(number < 0.0, answer);
    const Unit unit = unit_text.empty() ? unit_ : named_unit(unit_text, answer);
    const double value = taken_for_zero(unit.to_si(number), wanted_);
    if (value < 0.0 && !may_be_negative(wanted_.dimension))
      refuse(answer, std::string(phrase_of(wanted_.dimension)) +
                         " cannot be negative; are the leads swapped, or is "
                         "there a voltage on the part?");
    return StatedValue{AnyQuantity(wanted_.dimension, value), std::nullopt, unit};
  }

 private:
  /// IEEE 488.2 demands "*IDN?", and many a simple meter keeps silent: it measures all the same.
  void ask_for_name() {
    const std::string request = "*IDN?";
    channel_->send(request);
    const std::optional<std::string> name = channel_->receive_unless_silent(request);
    may_name_itself_yet_ = !name;
    name_ = name.value_or(std::string());
  }

  /// A name that comes too late is none of its values: what begins with no digit is taken for it, once.
  std::string ask_for_value() {
    std::string answer = ask(request_);
    if (std::exchange(may_name_itself_yet_, false) && answer.find_first_of("0123456789") != 0 &&
        answer.find_first_of("+-. \t") != 0) {
      name_ = std::exchange(answer, channel_->receive(request_));
    }
    return answer;
  }

  std::string ask(const std::string& request) {
    channel_->send(request);
    return channel_->receive(request);
  }

  /// Below what it can show there is a value as well as above, but for a quantity that has no sign.
  OverRange over_range(bool is_negative, const std::string& answer) const {
    if (is_negative && !may_be_negative(wanted_.dimension))
      refuse(answer, "that is over-range on the negative side, which " + std::string(phrase_of(wanted_.dimension)) +
                         " does not have; is there a voltage on the part, or a charge?");
    return OverRange{};
  }

  Unit named_unit(std::string_view text, const std::string& answer) const {
    const std::optional<Unit> unit = Unit::named(text, wanted_.dimension);
    if (!unit)
      refuse(answer, ohmwright::quoted(text) + " is no unit of " + std::string(phrase_of(wanted_.dimension)) +
                         "; is it set to another function?");
    return *unit;
  }

  /// SCPI-1999, volume 2, UNIT:TEMPerature: C or CEL, F or FAR, K.
  static Unit unit_of_temperature(const std::string& answer) {
    const std::string_view text = without_blanks(answer);
    const char* name = text == "C" || text == "CEL" ? "degC" : text == "F" || text == "FAR" ? "degF" : "K";
    if (*name == 'K' && text != "K")
      throw InputError("the instrument answers \"UNIT:TEMP?\" with " + ohmwright::quoted(answer) +
                       "; expected C, F or K");
    return *Unit::named(name, Dimension::temperature);
  }

  [[noreturn]] void refuse(const std::string& answer, const std::string& why) const {
    throw InputError("the instrument answers " + ohmwright::quoted(request_) + " with " + ohmwright::quoted(answer) +
                     ": " + why);
  }

  std::unique_ptr<Channel> channel_;
  Wanted wanted_;
  std::string request_;
  Unit unit_;
  std::string name_;
  bool may_name_itself_yet_ = false;
};

class ProgramReadout : public Readout {
 public:
  ProgramReadout(std::unique_ptr<Channel> channel, const Wanted& wanted)
      : channel_(std::move(channel)), wanted_(wanted) {}

  std::string name() override { return {}; }

  std::optional<Observed> next() override {
    const std::optional<std::string> received = channel_->receive_unless_ended("");
    if (!received && printed_) return std::nullopt;
    const std::string line = received ? *received : channel_->receive("");
    printed_ = true;
    try {
      const Document document = parse_document(line, "the program's line");
      const ValueNode* value = document.root.find("value");
      if (value == nullptr || value->text() == nullptr)
        throw InputError(R"(expected {"value": "11.45 kohm"} or {"value": "OL"})");
      return observed(*value->text());
    } catch (const Error& error) {
      throw InputError("the program printed " + ohmwright::quoted(line) + ": " + error.what());
    }
  }

 private:
  /// A little below 0 is read without its sign first, as no quantity without one is typed with it.
  Observed observed(const std::string& text) const {
    if (text.starts_with('-') && !may_be_negative(wanted_.dimension)) {
      const Observed below = parse_observed(text.substr(1), wanted_.dimension);
      const auto* number = std::get_if<StatedValue>(&below);
      if (number != nullptr && number->value.value_in_si() <= wanted_.zero_error)
        return StatedValue{AnyQuantity(wanted_.dimension, 0.0), number->half_width, number->unit};
    }
    return parse_observed(text, wanted_.dimension);
  }

  std::unique_ptr<Channel> channel_;
  Wanted wanted_;
  bool printed_ = false;
};

}  // namespace

std::unique_ptr<Readout> scpi_readout(std::unique_ptr<Channel> channel, const Wanted& wanted) {
  return std::make_unique<ScpiReadout>(std::move(channel), wanted);
}

std::unique_ptr<Readout> program_readout(std::unique_ptr<Channel> channel, const Wanted& wanted) {
  return std::make_unique<ProgramReadout>(std::move(channel), wanted);
}

std::unique_ptr<Readout> open_readout(const Address& address, const Wanted& wanted,
                                      std::chrono::milliseconds patience) {
  if (address.way != Address::Way::program) request_for(wanted);  // before anything is opened
  auto channel = open_channel(address, patience);
  if (address.way == Address::Way::program) return program_readout(std::move(channel), wanted);
  Wanted of_it = wanted;
  of_it.its_name = of_it.its_name && address.asks_its_name;
  return scpi_readout(std::move(channel), of_it);
}

}  // namespace ohmwright::instrument
