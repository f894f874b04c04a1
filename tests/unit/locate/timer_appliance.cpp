#include "timer_appliance.hpp"

#include <algorithm>
#include <array>

#include "bench_kinds.hpp"

namespace ohmwright::locate::testing {

namespace {

StatedValue stated(std::string_view text, Dimension dimension) { return parse_stated_value(text, dimension); }

class TimerAppliance {
 public:
  Appliance make(double tolerance) {
    appliance_.id = "timer-appliance";
    appliance_.title = "Refrigerator with cam timer and thermostat";
    appliance_.nodes = {"L", "D", "X", "H1", "H2", "N", "R"};
    appliance_.supply = {stated("120 V", Dimension::voltage), stated("60 Hz", Dimension::frequency), node("L"),
                         node("N"), std::nullopt};
    appliance_.zones = {{"coil", "coil", stated("-18 degC ± 2 K", Dimension::temperature)}};
    appliance_.covers = {{"control-box", "control box", 2.0, {}, {}}, {"freezer-back", "back panel", 6.0, {}, {}}};
    contact("defrost-contact", "L", "D", position_defrost);
    contact("run-contact", "L", "R", position_run);
    contact("thermostat", "D", "X", not_found);
    resistor("splice", "X", "H1", 0.05, 0.0);
    resistor("heater", "H1", "H2", 32.0, tolerance);
    resistor("heater-lead", "H2", "N", 0.05, 0.0);
    resistor("timer-motor", "L", "N", 8000.0, tolerance);
    resistor("compressor", "R", "N", 6.0, tolerance);
    resistor("fan", "R", "N", 120.0, tolerance);
    add_test_points();
    add_set_ups();
    return std::move(appliance_);
  }

 private:
  std::size_t node(std::string_view name) const {
    return static_cast<std::size_t>(std::find(appliance_.nodes.begin(), appliance_.nodes.end(), name) -
                                    appliance_.nodes.begin());
  }

  PlacedPart& place(const std::string& id, std::string_view from, std::string_view to, const LoadedKind& kind) {
    PlacedPart part;
    part.id = id;
    part.title = id;
    part.kind = &kind;
    part.nodes.assign(kind.descriptor().terminals.size(), std::nullopt);
    part.nodes[0] = node(from);
    part.nodes[1] = node(to);
    part.zone = 0;
    return appliance_.parts.emplace_back(std::move(part));
  }

  void contact(const std::string& id, std::string_view from, std::string_view to, std::uint16_t closed_in) {
    PlacedPart& part = place(id, from, to, contact_kind());
    part.part = std::make_shared<ContactPart>(closed_in);
    part.states = {{0, position_defrost}};
  }

  void resistor(const std::string& id, std::string_view from, std::string_view to, double ohm, double tolerance) {
    place(id, from, to, resistor_kind()).part = std::make_shared<ResistorPart>(ohm, tolerance);
  }

  void point(const std::string& id, Probe probe, std::string_view from, std::string_view to, std::size_t cover) {
    TestPoint point;
    point.id = id;
    point.title = id;
    point.probe = probe;
    point.from.node = node(from);
    point.to.node = node(to);
    point.behind = {cover};
    appliance_.test_points.push_back(std::move(point));
  }

  void add_test_points() {
    constexpr std::size_t control_box = 0;
    constexpr std::size_t freezer_back = 1;
    const std::array<std::array<std::string_view, 2>, 4> at_the_timer{{{"L", "D"}, {"L", "N"}, {"D", "N"}, {"R", "N"}}};
    for (const auto& [from, to] : at_the_timer)
      point(std::string(from) + "-" + std::string(to), Probe::ohms, from, to, control_box);
    const std::array<std::array<std::string_view, 2>, 5> at_the_coil{
        {{"D", "X"}, {"X", "N"}, {"H1", "H2"}, {"X", "H1"}, {"H2", "N"}}};
    for (const auto& [from, to] : at_the_coil)
      point(std::string(from) + "-" + std::string(to), Probe::ohms, from, to, freezer_back);
    for (const std::string_view from : {"D", "X", "H1", "H2"})
      point(std::string(from) + " volts", Probe::volts, from, "N", freezer_back);
    TestPoint clamp;
    clamp.id = "heater current";
    clamp.title = clamp.id;
    clamp.probe = Probe::amperes;
    clamp.from.terminal = PartTerminal{part_named(appliance_, "heater"), 0};
    clamp.behind = {freezer_back};
    appliance_.test_points.push_back(std::move(clamp));
  }

  void add_set_ups() {
    SetUp to_run;
    to_run.id = "timer-to-run";
    to_run.title = to_run.id;
    to_run.minutes = 2.0;
    for (const char* contact : {"defrost-contact", "run-contact"})
      to_run.states.push_back({part_named(appliance_, contact), {0, position_run}});
    SetUp warmed;
    warmed.id = "warmed";
    warmed.title = warmed.id;
    warmed.minutes = 10.0;
    warmed.temperatures = {{0, stated("22 degC ± 1 K", Dimension::temperature)}};
    appliance_.set_ups = {to_run, warmed};
  }

  Appliance appliance_;
};

template <class Row>
std::size_t row_named(const std::vector<Row>& rows, std::string_view id) {
  return static_cast<std::size_t>(
      std::find_if(rows.begin(), rows.end(), [id](const Row& row) { return row.id == id; }) - rows.begin());
}

Meter ohmmeter_of(double percent, double counts) {
  const auto ohms = [](double value) { return AnyQuantity(Dimension::resistance, value); };
  MeterFunction function;
  for (const double full_scale : {600.0, 6e3, 60e3, 600e3, 6e6, 60e6})
    function.ranges.push_back({ohms(full_scale), percent, counts, ohms(full_scale / 6000.0)});
  return {.name = "meter",
          .title = "meter",
          .source = "test",
          .functions = {function},
          .lead_resistance = parse_stated_value("0 ohm", Dimension::resistance)};
}

}  // namespace

Appliance timer_appliance(double tolerance) { return TimerAppliance().make(tolerance); }

std::size_t part_named(const Appliance& appliance, std::string_view id) { return row_named(appliance.parts, id); }
std::size_t test_point_named(const Appliance& appliance, std::string_view id) {
  return row_named(appliance.test_points, id);
}
std::size_t set_up_named(const Appliance& appliance, std::string_view id) { return row_named(appliance.set_ups, id); }

Meter exact_meter() {
  Meter meter = ohmmeter_of(1e-4, 0.0);
  meter.lead_resistance = parse_stated_value("0 ohm", Dimension::resistance);
  return meter;
}

Meter hand_meter() {
  Meter meter = ohmmeter_of(0.9, 3.0);
  meter.lead_resistance = parse_stated_value("0.2 ohm ± 0.1 ohm", Dimension::resistance);
  return meter;
}

}  // namespace ohmwright::locate::testing
