#include <algorithm>

#include <fmt/core.h>

#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

/// Turns one entry of a readings list into a reading.
class ReadingReader {
 public:
  ReadingReader(const Descriptor& descriptor, const MeterSet* meters, const std::string& default_meter,
                std::vector<Problem>& problems)
      : descriptor_(descriptor), meters_(meters), default_meter_(default_meter), problems_(problems) {}

  std::optional<Reading> read(const ValueNode& entry) {
    const MeasurandDescriptor* measurand = measurand_of(entry);
    if (measurand == nullptr) {
      add_conditions(entry, nullptr);  // to tell what else is wrong
      states_of(entry);
      return std::nullopt;
    }
    const std::string meter = text_of(entry, "meter");
    const std::optional<Observed> observed =
        observed_of(entry.find("value"), measurand->dimension, options_for(*measurand, entry.find("meter")), problems_);
    std::vector<double> repeats = repeats_of(entry, *measurand, observed);
    const auto range = quantity_of(entry.find("range"), measurand->dimension, problems_);
    const std::optional<StatedValue> leads = leads_of(entry, *measurand);
    std::vector<Condition> conditions;
    add_conditions(entry, &conditions);
    if (!observed) return std::nullopt;
    Reading reading{text_of(entry, "label"), std::string(measurand->id), *observed, std::move(repeats),
                    std::move(conditions)};
    if (reading.label.empty() && entry.line() > 0) reading.label = "line " + std::to_string(entry.line());
    set_circumstances(entry, reading);
    reading.states = states_of(entry);
    reading.meter = meter;
    if (range) reading.range = range->value;
    reading.leads = leads;
    return reading;
  }

 private:
  const MeasurandDescriptor* measurand_of(const ValueNode& entry) {
    const ValueNode* named = entry.find("measurand");
    if (descriptor_.measurands.empty()) return nullptr;
    if (named == nullptr) return &descriptor_.measurands.front();
    if (named->text() == nullptr) return nullptr;
    const std::uint16_t index = index_of(descriptor_.measurands, *named->text());
    if (index != not_found) return &descriptor_.measurands[index];
    problems_.push_back(
        named->problem(fmt::format("a {} has no measurand {}{}", descriptor_.id, ohmwright::quoted(*named->text()),
                                   suggestion(*named->text(), ids_of(descriptor_.measurands)))));
    return nullptr;
  }

  ObservedOptions options_for(const MeasurandDescriptor& measurand, const ValueNode* meter_node) {
    const bool own = meter_node != nullptr && meter_node->text() != nullptr;
    const Meter* meter = nullptr;
    try {
      if (meters_ != nullptr) meter = &meters_->named(own ? *meter_node->text() : default_meter_);
    } catch (const InputError& error) {
      if (own) problems_.push_back(meter_node->problem(error.what()));
    }
    return observed_options(measurand, meter);
  }

  std::optional<StatedValue> leads_of(const ValueNode& entry, const MeasurandDescriptor& measurand) {
    const ValueNode* node = entry.find("leads");
    if (node != nullptr && measurand.dimension != Dimension::resistance) {
      problems_.push_back(node->problem("only what is read in ohms has the resistance of the leads in it"));
      return std::nullopt;
    }
    std::optional<StatedValue> leads = quantity_of(node, Dimension::resistance, problems_);
    if (!leads) return leads;
    if (std::string slip = slip_in_leads(*leads); !slip.empty()) problems_.push_back(node->problem(std::move(slip)));
    return leads;
  }

  std::vector<double> repeats_of(const ValueNode& entry, const MeasurandDescriptor& measurand,
                                 const std::optional<Observed>& observed) {
    std::vector<double> repeats;
    for (const ValueNode& node : list_of(entry, "repeats")) {
      const auto stated = quantity_of(&node, measurand.dimension, problems_);
      if (stated && stated->half_width)
        problems_.push_back(node.problem("a repeated reading carries no uncertainty: their scatter tells it"));
      if (stated) repeats.push_back(stated->value.value_in_si());
    }
    const auto* first = observed ? std::get_if<StatedValue>(&*observed) : nullptr;
    if (!repeats.empty() && observed && first == nullptr)
      problems_.push_back(entry.find("repeats")->problem("only a value can be repeated, not " +
                                                         ohmwright::quoted(text_of(entry, "value"))));
    return repeats;
  }

  /// Checks the conditions and adds them to `conditions` unless that is null.
  void add_conditions(const ValueNode& entry, std::vector<Condition>* conditions) {
    const ValueNode* node = entry.find("conditions");
    if (node == nullptr || node->members() == nullptr) return;
    for (const auto& [name, value] : *node->members()) {
      const std::uint16_t index = condition_called(name);
      if (index == not_found) {
        problems_.push_back(value.problem(fmt::format("a {} has no condition {}{}", descriptor_.id,
                                                      ohmwright::quoted(name), way_on_for_condition(name))));
        continue;
      }
      const ConditionDescriptor& row = descriptor_.conditions[index];
      if (name != row.id && node->find(row.id) != nullptr) {
        problems_.push_back(
            value.problem(fmt::format("{} and {} are one condition; say it once", name, ohmwright::quoted(row.id))));
        continue;
      }
      const std::optional<Condition> condition = condition_of(row, value);
      if (condition && conditions != nullptr) conditions->push_back(*condition);
    }
  }

  /// By its id, or as it is typed as an option: "at".
  std::uint16_t condition_called(std::string_view name) const {
    const auto& rows = descriptor_.conditions;
    for (std::size_t i = 0; i < rows.size(); ++i)
      if (rows[i].id == name || (!rows[i].option.empty() && rows[i].option == name))
        return static_cast<std::uint16_t>(i);
    return not_found;
  }

  std::string way_on_for_condition(const std::string& name) const {
    for (const std::string_view circumstance :
         {"connection", "moisture", "supply", "states", "meter", "range", "leads"})
      if (name == circumstance)
        return fmt::format("; {} is said of the reading itself, beside \"conditions\"", ohmwright::quoted(name));
    return suggestion(name, ids_of(descriptor_.conditions));
  }

  std::optional<Condition> condition_of(const ConditionDescriptor& descriptor, const ValueNode& node) {
    const auto stated =
        quantity_of(node.members() != nullptr ? node.find("value") : &node, descriptor.dimension, problems_);
    if (!stated) return std::nullopt;
    if (std::string slip = slip_in(*stated); !slip.empty()) {
      problems_.push_back(node.problem(std::move(slip)));
      return std::nullopt;
    }
    return stated_condition(descriptor, *stated, text_of(node, "error_source"));
  }

  std::vector<NamedState> states_of(const ValueNode& entry) {
    std::vector<NamedState> states;
    const ValueNode* node = entry.find("states");
    if (node == nullptr || node->members() == nullptr) return states;
    for (const auto& [name, value] : *node->members()) {
      const std::uint16_t state = index_of(descriptor_.states, name);
      if (state == not_found) {
        problems_.push_back(value.problem(fmt::format("a {} has no state {}{}", descriptor_.id, ohmwright::quoted(name),
                                                      suggestion(name, ids_of(descriptor_.states)))));
      } else if (value.text() != nullptr && index_of(descriptor_.states[state].values, *value.text()) == not_found) {
        const std::vector<std::string> known = ids_of(descriptor_.states[state].values);
        problems_.push_back(
            value.problem(fmt::format("{} is {}, not {}{}", name, listed(known), ohmwright::quoted(*value.text()),
                                      suggestion(*value.text(), known))));
      } else if (value.text() != nullptr) {
        states.push_back({name, *value.text()});
      }
    }
    return states;
  }

  static void set_circumstances(const ValueNode& entry, Reading& reading) {
    const std::string connection = text_of(entry, "connection");
    if (connection == "lead-off") reading.connection = Connection::lead_off;
    if (connection == "in-circuit") reading.connection = Connection::in_circuit;
    const std::string moisture = text_of(entry, "moisture");
    if (moisture == "dry") reading.moisture = Moisture::dry;
    if (moisture == "wet") reading.moisture = Moisture::wet;
    const std::string supply = text_of(entry, "supply");
    if (supply == "unplugged") reading.supply = Supply::unplugged;
    if (supply == "proved-dead") reading.supply = Supply::proved_dead;
    if (supply == "live") reading.supply = Supply::live;
  }

  const Descriptor& descriptor_;
  const MeterSet* meters_;
  const std::string& default_meter_;
  std::vector<Problem>& problems_;
};

}  // namespace

const std::string* kind_named_in(const Document& document) {
  const ValueNode* kind = document.root.find("kind");
  return kind == nullptr ? nullptr : kind->text();
}

void check_kind(const ValueNode& root, const Descriptor& descriptor, std::vector<Problem>& problems) {
  const ValueNode* kind = root.find("kind");
  if (kind == nullptr || kind->text() == nullptr || *kind->text() == descriptor.id) return;
  const auto& aliases = descriptor.aliases;
  if (std::find(aliases.begin(), aliases.end(), *kind->text()) != aliases.end()) return;
  problems.push_back(kind->problem("the file is about the kind " + ohmwright::quoted(*kind->text()) + "; expected " +
                                   ohmwright::quoted(descriptor.id)));
}

std::vector<Reading> readings_of(const ValueNode::Array& entries, const Descriptor& descriptor, const MeterSet* meters,
                                 const std::string& default_meter, std::vector<Problem>& problems) {
  ReadingReader reader(descriptor, meters, default_meter, problems);
  std::vector<Reading> readings;
  for (const ValueNode& entry : entries)
    if (std::optional<Reading> reading = reader.read(entry)) readings.push_back(*std::move(reading));
  return readings;
}

std::vector<Reading> read_readings(const Document& document, const Descriptor& descriptor, const MeterSet* meters) {
  std::vector<Problem> problems = readings_schema().problems(document);
  check_kind(document.root, descriptor, problems);
  std::vector<Reading> readings = readings_of(list_of(document.root, "readings"), descriptor, meters, "", problems);
  refuse_if_any(document.file, std::move(problems));
  return readings;
}

}  // namespace ohmwright
