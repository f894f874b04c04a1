#include "small_appliance.hpp"

#include <string>
#include <utility>

#include <ohmwright/uncertainty/reproducible_stream.hpp>

#include "bench_kinds.hpp"

namespace ohmwright::locate::testing {

namespace {

StatedValue stated(std::string_view text, Dimension dimension) { return parse_stated_value(text, dimension); }

class SmallAppliance {
 public:
  explicit SmallAppliance(std::uint64_t seed) : stream_(seed) {}

  Appliance make() {
    appliance_.id = "small-appliance";
    appliance_.title = "Small appliance";
    appliance_.supply.voltage = stated("230 V ± 10 V", Dimension::voltage);
    appliance_.supply.frequency = stated("50 Hz", Dimension::frequency);
    appliance_.zones = {{"coil", "coil", stated("-18 degC ± 2 K", Dimension::temperature)}};
    appliance_.covers = {{"box", "box", minutes(1, 4), {}, {}}, {"panel", "panel", minutes(3, 10), {}, {}}};
    const std::size_t links = 3 + stream_.below(2);
    for (std::size_t node = 0; node <= links; ++node) appliance_.nodes.push_back("N" + std::to_string(node));
    appliance_.supply.live = 0;
    appliance_.supply.neutral = links;
    add_parts(links);
    add_test_points(links);
    if (stream_.below(2) == 0) {
      SetUp warmed;
      warmed.id = warmed.title = "warmed";
      warmed.minutes = minutes(4, 12);
      warmed.temperatures = {{0, stated("22 degC ± 1 K", Dimension::temperature)}};
      appliance_.set_ups = {warmed};
    }
    return std::move(appliance_);
  }

 private:
  double minutes(std::uint64_t least, std::uint64_t most) {
    return static_cast<double>(least + stream_.below(most - least + 1));
  }

  void place(const LoadedKind& kind, std::shared_ptr<const Part> part, std::size_t from, std::size_t to) {
    PlacedPart placed;
    placed.id = placed.title = "part-" + std::to_string(appliance_.parts.size());
    placed.kind = &kind;
    placed.part = std::move(part);
    placed.nodes.assign(kind.descriptor().terminals.size(), std::nullopt);
    placed.nodes[0] = from;
    placed.nodes[1] = to;
    placed.zone = 0;
    placed.weight = 0.25 * static_cast<double>(1 + stream_.below(12));
    placed.fault_weights = {1.0, 1.0, 0.0};  // leaks go to a frame that no test point here touches
    if (&kind == &contact_kind()) placed.fault_weights = {1.0, 0.5, 1.0};
    appliance_.parts.push_back(std::move(placed));
  }

  void add_parts(std::size_t links) {
    const std::size_t thermostat = stream_.below(links);
    for (std::size_t link = 0; link < links; ++link) {
      if (link == thermostat) {
        place(contact_kind(), std::make_shared<ContactPart>(not_found), link, link + 1);
        continue;
      }
      const double ohm = 15.0 * static_cast<double>(1 + stream_.below(8));
      place(resistor_kind(), std::make_shared<ResistorPart>(ohm, 0.05), link, link + 1);
    }
    if (stream_.below(2) == 0)  // a path beside the last two
      place(resistor_kind(), std::make_shared<ResistorPart>(700.0, 0.1), links - 2, links);
  }

  void point(Probe probe, std::size_t from, std::size_t to) {
    TestPoint point;
    point.id = point.title = std::to_string(appliance_.test_points.size());
    point.probe = probe;
    point.from.node = from;
    point.to.node = to;
    point.minutes = minutes(1, 4);
    if (const std::uint64_t cover = stream_.below(3); cover > 0) point.behind = {cover - 1};
    appliance_.test_points.push_back(std::move(point));
  }

  void add_test_points(std::size_t links) {
    point(Probe::ohms, 0, links);
    const std::size_t middle = 1 + stream_.below(links - 1);
    point(Probe::ohms, 0, middle);
    point(Probe::ohms, middle, links);
    const std::size_t lone = stream_.below(links);
    if (lone > 0 || middle != 1) point(Probe::ohms, lone, lone + 1);
    if (stream_.below(2) == 0) point(Probe::volts, 1 + stream_.below(links - 1), links);
  }

  ReproducibleStream stream_;
  Appliance appliance_;
};

}  // namespace

Appliance small_appliance(std::uint64_t seed) { return SmallAppliance(seed).make(); }

}  // namespace ohmwright::locate::testing
