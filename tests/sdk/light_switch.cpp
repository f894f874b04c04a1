#include <limits>
#include <optional>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/plugin_entry.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "light_switch_ratings_schema.hpp"

namespace {

using namespace ohmwright;

enum Measurand : std::uint16_t { closed_contact, open_contact };
enum Rule : std::uint16_t { closed_rule, open_rule };
enum ClosedText : TextIndex { resistance_judged, does_not_close, closes_by_sound, closed_not_read };
enum OpenText : TextIndex { opens, does_not_open, neither, range_too_low, open_not_read };

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "light-switch";
  descriptor.title = OHMWRIGHT_TEXT("Light switch");
  descriptor.aliases = {"lamp switch"};
  descriptor.text_domain = "light-switch";
  descriptor.roles = {"senses-door"};
  descriptor.terminals = {"common", "contact"};
  descriptor.measurands = {{"closed_contact", OHMWRIGHT_TEXT("Resistance of the contact in its closed position"),
                            Dimension::resistance, "ohm", true},
                           {"open_contact", OHMWRIGHT_TEXT("Resistance of the contact in its open position"),
                            Dimension::resistance, "ohm", true}};
  descriptor.rules = {
      {"closed-contact",
       OHMWRIGHT_TEXT("The contact closes"),
       true,
       can_pass | can_condemn | can_be_undecided,
       "common practice, no source",
       {{"resistance-judged", OHMWRIGHT_TEXT("Closed it has {measured}; a good one has {upper} at most.")},
        {"does-not-close", OHMWRIGHT_TEXT("It does not conduct where it should be closed.")},
        {"closes-by-sound", OHMWRIGHT_TEXT("It conducts; how well was not read.")},
        {"not-read", OHMWRIGHT_TEXT("Not judged: the closed contact was not read with a lead off.")}}},
      {"open-contact",
       OHMWRIGHT_TEXT("The contact opens"),
       true,
       can_pass | can_condemn | can_be_undecided,
       "common practice, no source",
       {{"opens", OHMWRIGHT_TEXT("It does not conduct where it should be open.")},
        {"does-not-open", OHMWRIGHT_TEXT("It conducts where it should be open: the contact is stuck.")},
        {"neither", OHMWRIGHT_TEXT("It has {measured}: too much for a closed contact, too little for an open one.")},
        {"range-too-low", OHMWRIGHT_TEXT("That range does not tell: read it again on one above 1 megohm.")},
        {"not-read", OHMWRIGHT_TEXT("Not judged: the open contact was not read with a lead off.")}}}};
  descriptor.procedures = {
      {"read-the-contact",
       OHMWRIGHT_TEXT("Read the contact in both positions"),
       "closed_contact",
       4.0,
       {{"unplug", OHMWRIGHT_TEXT("Unplug the appliance, prove the switch dead and pull one of its leads.")},
        {"read", OHMWRIGHT_TEXT("Read the ohms across the contact, plunger out, then plunger in.")}},
       {"disconnect-power", "prove-dead"}}};
  descriptor.fault_modes = {
      {"burnt", OHMWRIGHT_TEXT("burnt contact"), 1.0, "assumed, no source", {{"lamp-stays-dark", 0.8}}, {}},
      {"stuck", OHMWRIGHT_TEXT("stuck contact"), 1.0, "assumed, no source", {{"lamp-stays-lit", 0.9}}, {}}};
  descriptor.ratings_schema = ohmwright_schemas::light_switch_ratings_schema;
  return descriptor;
}

/// Judges every reading of a contact that was taken with nothing beside it: one that is passed over could be the one
/// that condemns. False where there is none.
template <class Judge>
bool for_each_reading(const Evidence& evidence, Measurand measurand, Judge judge) {
  bool any = false;
  for (const PreparedReading& reading : evidence.readings()) {
    if (reading.measurand != measurand || reading.connection != Connection::lead_off) continue;
    judge(reading);
    any = true;
  }
  return any;
}

bool conducts_nothing(const PreparedReading& reading) {
  return reading.shown == Shown::over_range || reading.shown == Shown::contact_open;
}

class LightSwitch : public Part {
 public:
  explicit LightSwitch(double contact_ohms) : contact_ohms_(contact_ohms) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override {
    const bool any_closed = for_each_reading(evidence, closed_contact, [&](const PreparedReading& reading) {
      judge_closed(reading, evidence, settings, findings);
    });
    if (!any_closed) findings.add(closed_rule, Outcome::silent, closed_not_read);
    const bool any_open =
        for_each_reading(evidence, open_contact, [&](const PreparedReading& one) { judge_open(one, findings); });
    if (!any_open) findings.add(open_rule, Outcome::silent, open_not_read);
  }

 private:
  void judge_closed(const PreparedReading& reading, const Evidence& evidence, const JudgeSettings& settings,
                    Findings& findings) const {
    if (conducts_nothing(reading)) {
      findings.add(closed_rule, Outcome::out_of_limits, does_not_close);
    } else if (reading.shown == Shown::contact_closed) {
      findings.add(closed_rule, Outcome::undecided, closes_by_sound);
    } else {
      constexpr double nothing_below = -std::numeric_limits<double>::infinity();
      const Conformance p = conformance_of(reading.value, evidence.sources(), nothing_below, contact_ohms_);
      Finding& finding = findings.add(closed_rule, decide(p, settings.confidence), resistance_judged);
      finding.meaning = ProbabilityMeaning::within_limits;
      finding.probability = p.within;
      finding.judged = reading.value;
      finding.judged_lower = nothing_below;
      finding.judged_upper = contact_ohms_;
      finding.measured = AnyQuantity(Dimension::resistance, reading.value.value());
      finding.measured_uncertainty = reading.value.standard_uncertainty();
      finding.limits.upper = AnyQuantity(Dimension::resistance, contact_ohms_);
      finding.arguments.push_back({"measured", *finding.measured});
      finding.arguments.push_back({"upper", *finding.limits.upper});
    }
  }

  /// Up to 10 ohm a contact is closed, from 1 megohm on open (component/contact_seen.hpp); what lies between is
  /// neither: skin and moisture have some hundred kilohms.
  static void judge_open(const PreparedReading& reading, Findings& findings) {
    const bool tells_nothing = reading.shown == Shown::over_range && reading.range_full_scale < leaking_up_to_ohms;
    const ContactSeen seen = tells_nothing ? ContactSeen::nothing : contact_seen(reading);
    if (seen == ContactSeen::nothing) {
      findings.add(open_rule, Outcome::undecided,
                   range_too_low);  // OL is "more than the range", and 700 ohm is not open
    } else if (seen == ContactSeen::open) {
      findings.add(open_rule, Outcome::within_limits, opens);
    } else if (seen == ContactSeen::closed) {
      findings.add(open_rule, Outcome::out_of_limits, does_not_open);
    } else {
      Finding& finding = findings.add(open_rule, Outcome::undecided, neither);
      finding.holds_back = true;
      finding.arguments.push_back({"measured", AnyQuantity(Dimension::resistance, reading.value.value())});
    }
  }

  double contact_ohms_;
};

class LightSwitchKind : public Kind {
 public:
  const Descriptor& descriptor() const override { return descriptor_; }

  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override {
    constexpr double of_any_switch = 1.0;  // common practice, no source
    if (ratings == nullptr) return std::make_unique<LightSwitch>(of_any_switch);
    const ValueNode& node = *ratings->find("contact_resistance");  // the schema requires it, as text
    try {
      const StatedValue stated = parse_stated_value(*node.text(), Dimension::resistance);
      return std::make_unique<LightSwitch>(stated.value.value_in_si());
    } catch (const InputError& error) {
      problems.push_back(node.problem(error.what()));
      return nullptr;
    }
  }

 private:
  Descriptor descriptor_ = make_descriptor();
};

Kind* create(std::uint32_t /*index*/) { return new LightSwitchKind; }

}  // namespace

OHMWRIGHT_PLUGIN("light-switch\tlamp switch", create, 1)
