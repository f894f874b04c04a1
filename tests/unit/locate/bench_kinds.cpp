#include "bench_kinds.hpp"

namespace ohmwright::locate::testing {

namespace {

constexpr double contact_ohm = 0.05;

/// Says what it is; never asked to make parts from ratings, which the tests make themselves.
class BenchKind final : public Kind {
 public:
  explicit BenchKind(Descriptor descriptor) : descriptor_(std::move(descriptor)) {}
  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* /*ratings*/,
                                        std::vector<Problem>& /*problems*/) const override {
    return nullptr;
  }

 private:
  Descriptor descriptor_;
};

Descriptor resistor() {
  Descriptor d;
  d.id = "bench-resistor";
  d.title = "Resistor";
  d.terminals = {"a", "b", "frame"};
  d.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", true, true, 0, 1}};
  d.fault_modes = {{"open", "open", 2.0, "assumed", {{"frost-whole-coil", 0.9}, {"warm-cabinet", 0.7}}, {}},
                   {"high", "too high", 0.5, "assumed", {{"frost-far-end", 0.5}}, {}},
                   {"leaks", "leaks", 0.3, "assumed", {{"trips-residual-current-device", 0.8}}, {}}};
  return d;
}

Descriptor contact() {
  Descriptor d;
  d.id = "bench-contact";
  d.title = "Contact";
  d.terminals = {"a", "b"};
  d.measurands = {{"state", "The contact", Dimension::resistance, "ohm", true, true, 0, 1}};
  d.conditions = {{"part_temperature", "its temperature", "at", Dimension::temperature, "", 0.0, ""}};
  d.states = {{"position", "position", {{"run", "in run"}, {"defrost", "in defrost"}}, "position"}};
  d.fault_modes = {{"stuck-open", "never closes", 1.5, "assumed", {{"frost-whole-coil", 0.9}}, {}},
                   {"welded", "never opens", 0.5, "assumed", {{"warm-food-after-defrost", 0.6}}, {}},
                   {"burnt", "bad contact", 0.5, "assumed", {{"frost-far-end", 0.4}}, {}}};
  return d;
}

}  // namespace

ModelAnswer ResistorPart::electrical_model(std::uint16_t fault_mode, const Situation& /*situation*/,
                                           std::vector<Element>& elements) const {
  const double low = ohm_ * (1.0 - tolerance_);
  const double high = ohm_ * (1.0 + tolerance_);
  if (fault_mode == resistor_open)
    elements.push_back(open_between(0, 1));
  else if (fault_mode == resistor_high)
    elements.push_back(resistance_between(0, 1, 1.5 * low, 2.0 * high));
  else
    elements.push_back(resistance_between(0, 1, low, high));
  if (fault_mode == resistor_leaks) elements.push_back(resistance_between(0, 2, 1e3, 100e3));
  return ModelAnswer::stated;
}

ModelAnswer ContactPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                          std::vector<Element>& elements) const {
  bool closed = fault_mode == contact_welded;
  if (fault_mode != contact_stuck_open && fault_mode != contact_welded) {
    if (closed_in_ != not_found) {
      const std::optional<std::uint16_t> position = situation.state(0);
      if (!position) return ModelAnswer::unknown;
      closed = *position == closed_in_;
    } else {
      closed = situation.condition(0).value_or(300.0) < 273.0;
    }
  }
  if (!closed)
    elements.push_back(open_between(0, 1));
  else if (fault_mode == contact_burnt)
    elements.push_back(contact_between(0, 1, 5.0, 50.0, 1.0));
  else
    elements.push_back(contact_between(0, 1, contact_ohm, contact_ohm, 1.0));
  return ModelAnswer::stated;
}

const LoadedKind& resistor_kind() {
  static const LoadedKind loaded = [] {
    const auto kind = std::make_shared<BenchKind>(resistor());
    return LoadedKind(kind, kind->descriptor(), "bench-resistor");
  }();
  return loaded;
}

const LoadedKind& contact_kind() {
  static const LoadedKind loaded = [] {
    const auto kind = std::make_shared<BenchKind>(contact());
    return LoadedKind(kind, kind->descriptor(), "bench-contact");
  }();
  return loaded;
}

}  // namespace ohmwright::locate::testing
