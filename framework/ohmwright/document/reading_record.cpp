#include <algorithm>
#include <array>

#include <nlohmann/json.hpp>

#include <ohmwright/document/bitwise.hpp>
#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/record_values.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

// Words in the order of the enumerations; the first is "unstated" and is not written.
constexpr std::array<std::string_view, 3> connections{"unstated", "lead-off", "in-circuit"};
constexpr std::array<std::string_view, 3> moistures{"unstated", "dry", "wet"};
constexpr std::array<std::string_view, 4> supplies{"unstated", "unplugged", "proved-dead", "live"};

template <class State, std::size_t count>
void put_state(Json& record, const char* name, State state, const std::array<std::string_view, count>& words) {
  if (state != State::unstated) record[name] = words.at(static_cast<std::size_t>(state));
}

template <class State, std::size_t count>
void take_state(const RecordReader& reader, const ValueNode& record, const char* name, State& state,
                const std::array<std::string_view, count>& words) {
  const ValueNode* node = record.find(name);
  if (node == nullptr) return;
  const auto found = std::find(words.begin(), words.end(), reader.text(*node));
  if (found == words.end()) reader.refuse(*node, "a state of the reading");
  state = static_cast<State>(found - words.begin());
}

Json condition_record(const Condition& condition) {
  Json record{{"id", condition.id}, {"value", stated_record(condition.value)}};
  if (!condition.error_source.empty()) record["error_source"] = condition.error_source;
  if (condition.uncertainty_assumed) record["uncertainty_assumed"] = true;
  return record;
}

Condition condition_from(const RecordReader& reader, const ValueNode& node) {
  Condition condition{reader.text(reader.field(node, "id")), reader.stated(reader.field(node, "value"))};
  if (const ValueNode* source = node.find("error_source")) condition.error_source = reader.text(*source);
  if (const ValueNode* assumed = node.find("uncertainty_assumed"))
    condition.uncertainty_assumed = reader.flag(*assumed);
  return condition;
}

Json reading_record(const Reading& reading) {
  Json record{
      {"label", reading.label}, {"measurand", reading.measurand}, {"observed", observed_record(reading.observed)}};
  if (!reading.repeats.empty()) {
    record["repeats"] = Json::array();
    for (const double repeat : reading.repeats) record["repeats"].push_back(number_record(repeat));
  }
  record["conditions"] = Json::array();
  for (const Condition& condition : reading.conditions) record["conditions"].push_back(condition_record(condition));
  put_state(record, "connection", reading.connection, connections);
  put_state(record, "moisture", reading.moisture, moistures);
  put_state(record, "supply", reading.supply, supplies);
  for (const NamedState& state : reading.states) record["states"][state.state] = state.value;
  if (!reading.meter.empty()) record["meter"] = reading.meter;
  if (reading.range) record["range"] = quantity_record(*reading.range);
  if (reading.leads) record["leads"] = stated_record(*reading.leads);
  return record;
}

Reading reading_from(const RecordReader& reader, const ValueNode& node) {
  Reading reading{.label = reader.text(reader.field(node, "label")),
                  .measurand = reader.text(reader.field(node, "measurand")),
                  .observed = reader.observed(reader.field(node, "observed"))};
  if (const ValueNode* repeats = node.find("repeats"))
    for (const ValueNode& repeat : reader.list(*repeats)) reading.repeats.push_back(reader.number(repeat));
  for (const ValueNode& condition : reader.list(reader.field(node, "conditions")))
    reading.conditions.push_back(condition_from(reader, condition));
  take_state(reader, node, "connection", reading.connection, connections);
  take_state(reader, node, "moisture", reading.moisture, moistures);
  take_state(reader, node, "supply", reading.supply, supplies);
  if (const ValueNode* states = node.find("states"); states != nullptr && states->members() != nullptr)
    for (const auto& [state, value] : *states->members()) reading.states.push_back({state, reader.text(value)});
  if (const ValueNode* meter = node.find("meter")) reading.meter = reader.text(*meter);
  if (const ValueNode* range = node.find("range")) reading.range = reader.quantity(*range);
  if (const ValueNode* leads = node.find("leads")) reading.leads = reader.stated(*leads);
  return reading;
}

bool equal_stated(const StatedValue& a, const StatedValue& b) {
  return same_bits(a.value, b.value) && same_bits(a.half_width, b.half_width) && a.unit == b.unit &&
         a.unit_assumed == b.unit_assumed;
}

bool equal_observed(const Observed& a, const Observed& b) {
  const auto* stated_a = std::get_if<StatedValue>(&a);
  const auto* stated_b = std::get_if<StatedValue>(&b);
  return stated_a != nullptr && stated_b != nullptr ? equal_stated(*stated_a, *stated_b) : a == b;
}

bool equal_conditions(const Condition& a, const Condition& b) {
  return a.id == b.id && equal_stated(a.value, b.value) && a.error_source == b.error_source &&
         a.uncertainty_assumed == b.uncertainty_assumed;
}

bool equal_leads(const Reading& a, const Reading& b) {
  return a.leads.has_value() == b.leads.has_value() && (!a.leads || equal_stated(*a.leads, *b.leads));
}

}  // namespace

std::string readings_record(std::span<const Reading> readings) {
  Json records = Json::array();
  for (const Reading& reading : readings) records.push_back(reading_record(reading));
  return record_text({{"readings", std::move(records)}});
}

std::vector<Reading> readings_from_record(std::string_view record, const std::string& name) {
  const Document document = parse_record(record, name);
  const RecordReader reader(name);
  std::vector<Reading> readings;
  for (const ValueNode& node : reader.list(reader.field(document.root, "readings")))
    readings.push_back(reading_from(reader, node));
  return readings;
}

bool equal(const Reading& a, const Reading& b) {
  return a.label == b.label && a.measurand == b.measurand && equal_observed(a.observed, b.observed) &&
         std::equal(a.repeats.begin(), a.repeats.end(), b.repeats.begin(), b.repeats.end(),
                    [](double x, double y) { return same_bits(x, y); }) &&
         std::equal(a.conditions.begin(), a.conditions.end(), b.conditions.begin(), b.conditions.end(),
                    equal_conditions) &&
         a.connection == b.connection && a.moisture == b.moisture && a.supply == b.supply && a.states == b.states &&
         a.meter == b.meter && same_bits(a.range, b.range) && equal_leads(a, b);
}

}  // namespace ohmwright
