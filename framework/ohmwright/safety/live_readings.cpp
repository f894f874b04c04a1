#include <algorithm>
#include <cmath>
#include <variant>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/safety/live_readings.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

namespace ohmwright {

namespace {

Dimension read_dimension(const Reading& reading, const Descriptor& descriptor) {
  return descriptor.measurands[index_of(descriptor.measurands, reading.measurand)].dimension;
}

bool is_of_supply(Dimension dimension) { return dimension == Dimension::voltage || dimension == Dimension::current; }

FindingArgument label_of(const Reading& reading) { return {"label", printable(reading.label)}; }
/// What it is of, as people type it.
FindingArgument measurand_of(const Reading& reading) { return {"measurand", printable(reading.measurand)}; }
FindingArgument shown_by(const StatedValue& stated) { return {"shown", exact_text(stated.value)}; }

void refuse_ohms_on_a_live_part(const Reading& reading, Dimension dimension) {
  if (reading.supply != Supply::live) return;
  if (dimension == Dimension::resistance)
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{label} is ohms on a live part: that means nothing and can injure you; unplug, "
                       "prove dead, read again"),
        {label_of(reading)});
  if (dimension == Dimension::capacitance)
    throw CautionRefusal(
        OHMWRIGHT_TEXT(
            "{label} is a capacitance on a live part: that can injure you and ruins the meter; unplug, prove "
            "dead, discharge it through a resistor, read again"),
        {label_of(reading)});
}

void refuse_unsafe(const Reading& reading, const Descriptor& descriptor, bool agreed) {
  refuse_ohms_on_a_live_part(reading, read_dimension(reading, descriptor));
  const bool live = reading.supply == Supply::live;
  if (reading.supply == Supply::unstated && is_read_live(descriptor, reading.measurand))
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{label} ({measurand}): say whether the appliance was plugged in (--live-agreed: you are "
                       "qualified for live measurement and agreed to its caution) or not (--unplugged, --proved-dead)"),
        {label_of(reading), measurand_of(reading)});
  if (live && !agreed)
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{label} was taken live: live measurement is for those qualified for it, with insulated probes, "
                       "one hand at a time; if you are and have agreed to that, say --live-agreed"),
        {label_of(reading)});
}

/// A drop that a current of its own makes, of a bench supply: the points need not be still for it.
bool is_driven_by_a_current(const Reading& reading) {
  return std::any_of(reading.conditions.begin(), reading.conditions.end(), [](const Condition& condition) {
    return condition.value.value.dimension() == Dimension::current && condition.value.value.value_in_si() != 0.0;
  });
}

/// Points that are dead carry no volts that could hurt, nor any that would move an ohmmeter, and nothing flows; who
/// reads it has been wrong about the supply, or the points are charged.
void refuse_supply_where_all_is_dead(const Reading& reading, Dimension dimension) {
  constexpr double most_touchable_volts = 34.0;  // IEC 60335-1 (from memory)
  constexpr double most_dead_volts = 0.1;        // an ohmmeter's own are some tenths; common practice, no source
  const auto* stated = std::get_if<StatedValue>(&reading.observed);
  const bool said_dead = reading.supply == Supply::proved_dead || reading.supply == Supply::unplugged;
  if (stated == nullptr || !said_dead) return;
  const double value = std::abs(stated->value.value_in_si());
  if (dimension == Dimension::voltage && value > most_touchable_volts)
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{label}: {shown} at points that are said to be dead: STOP, they are live. Take the probes off, "
                       "cut the supply and prove it dead again; if it was read live, say --live-agreed"),
        {label_of(reading), shown_by(*stated)});
  if (dimension == Dimension::voltage && value > most_dead_volts && !is_driven_by_a_current(reading))
    throw CautionRefusal(
        OHMWRIGHT_TEXT(
            "{label}: {shown} stand on points that are said to be dead: they are not. A charged capacitor, a "
            "feed that is still on, or a ghost on a lead that hangs free; ohms read there mean nothing. "
            "Unplug, discharge, prove dead, read again; if it was read live, say --live-agreed"),
        {label_of(reading), shown_by(*stated)});
  if ((dimension == Dimension::current || dimension == Dimension::power) && value > 0.0)
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{label}: {shown} in an appliance that is said to be without supply: STOP, it is live. Cut the "
                       "supply and prove it dead again; if it was read live, say --live-agreed"),
        {label_of(reading), shown_by(*stated)});
}

}  // namespace

bool is_read_live(const Descriptor& descriptor, std::string_view measurand) {
  const std::uint16_t index = index_of(descriptor.measurands, measurand);
  if (index != not_found && is_of_supply(descriptor.measurands[index].dimension)) return true;
  bool has_procedure = false;
  for (const ProcedureDescriptor& procedure : descriptor.procedures) {
    if (procedure.measurand != measurand) continue;
    has_procedure = true;
    const auto& cautions = procedure.cautions;
    if (std::find(cautions.begin(), cautions.end(), "live-measurement") == cautions.end()) return false;
  }
  return has_procedure;
}

/// Who has agreed to live measurement and says nothing else of the supply has measured what is read live so. The ohms
/// of the same call are not touched: they were read before, unplugged.
void take_agreement_as_live(const Descriptor& descriptor, std::span<Reading> readings) {
  const auto is_live = [](const Reading& reading) { return reading.supply == Supply::live; };
  if (std::any_of(readings.begin(), readings.end(), is_live)) return;
  for (Reading& reading : readings) {
    if (!is_read_live(descriptor, reading.measurand)) continue;
    if (reading.supply != Supply::unstated)
      throw CautionRefusal(
          OHMWRIGHT_TEXT(
              "{label} ({measurand}) is said to be read without supply, and --live-agreed says that it was "
              "taken live; say --live of the readings that were, or leave one of both out (ohms need neither)"),
          {label_of(reading), measurand_of(reading)});
    reading.supply = Supply::live;
  }
}

void refuse_ohms_on_live_parts(std::span<const Reading> readings, const Descriptor& descriptor) {
  for (const Reading& reading : readings) refuse_ohms_on_a_live_part(reading, read_dimension(reading, descriptor));
}

void refuse_unsafe_readings(std::span<const Reading> readings, const Descriptor& descriptor, bool agreed) {
  for (const Reading& reading : readings) {
    refuse_unsafe(reading, descriptor, agreed);
    refuse_supply_where_all_is_dead(reading, read_dimension(reading, descriptor));
  }
}

}  // namespace ohmwright
