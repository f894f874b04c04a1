#include <algorithm>

#include <nlohmann/json.hpp>

#include <ohmwright/document/bitwise.hpp>
#include <ohmwright/document/meter_record.hpp>
#include <ohmwright/document/record_values.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

Json range_record(const MeterRange& range) {
  return {{"full_scale", quantity_record(range.full_scale)},
          {"percent_of_reading", number_record(range.percent_of_reading)},
          {"counts", number_record(range.counts)},
          {"resolution", quantity_record(range.resolution)}};
}

MeterRange range_from(const RecordReader& reader, const ValueNode& node) {
  return {reader.quantity(reader.field(node, "full_scale")), reader.number(reader.field(node, "percent_of_reading")),
          reader.number(reader.field(node, "counts")), reader.quantity(reader.field(node, "resolution"))};
}

Json function_record(const MeterFunction& function) {
  Json record{{"dimension", name_of(function.dimension)},
              {"one_means_over_range", function.one_means_over_range},
              {"tests_insulation", function.tests_insulation}};
  record["ranges"] = Json::array();
  for (const MeterRange& range : function.ranges) record["ranges"].push_back(range_record(range));
  return record;
}

MeterFunction function_from(const RecordReader& reader, const ValueNode& node) {
  const ValueNode& named = reader.field(node, "dimension");
  const std::optional<Dimension> dimension = dimension_named(reader.text(named));
  if (!dimension) reader.refuse(named, "a dimension");
  MeterFunction function{*dimension,
                         {},
                         reader.flag(reader.field(node, "one_means_over_range")),
                         reader.flag(reader.field(node, "tests_insulation"))};
  for (const ValueNode& range : reader.list(reader.field(node, "ranges")))
    function.ranges.push_back(range_from(reader, range));
  return function;
}

Json meter_record(const Meter& meter) {
  Json record{{"name", meter.name},
              {"title", meter.title},
              {"source", meter.source},
              {"lead_resistance", stated_record(meter.lead_resistance)},
              {"low_impedance", meter.low_impedance},
              {"sets_range_itself", meter.sets_range_itself}};
  record["functions"] = Json::array();
  for (const MeterFunction& function : meter.functions) record["functions"].push_back(function_record(function));
  return record;
}

Meter meter_from(const RecordReader& reader, const ValueNode& node) {
  Meter meter{reader.text(reader.field(node, "name")),
              reader.text(reader.field(node, "title")),
              reader.text(reader.field(node, "source")),
              {},
              reader.stated(reader.field(node, "lead_resistance")),
              reader.flag(reader.field(node, "low_impedance")),
              reader.flag(reader.field(node, "sets_range_itself"))};
  for (const ValueNode& function : reader.list(reader.field(node, "functions")))
    meter.functions.push_back(function_from(reader, function));
  return meter;
}

bool equal_ranges(const MeterRange& a, const MeterRange& b) {
  return same_bits(a.full_scale, b.full_scale) && same_bits(a.percent_of_reading, b.percent_of_reading) &&
         same_bits(a.counts, b.counts) && same_bits(a.resolution, b.resolution);
}

bool equal_functions(const MeterFunction& a, const MeterFunction& b) {
  return a.dimension == b.dimension && a.one_means_over_range == b.one_means_over_range &&
         a.tests_insulation == b.tests_insulation &&
         std::equal(a.ranges.begin(), a.ranges.end(), b.ranges.begin(), b.ranges.end(), equal_ranges);
}

}  // namespace

std::string meters_record(std::span<const Meter> meters) {
  Json records = Json::array();
  for (const Meter& meter : meters) records.push_back(meter_record(meter));
  return record_text({{"meters", std::move(records)}});
}

std::vector<Meter> meters_from_record(std::string_view record, const std::string& name) {
  const Document document = parse_record(record, name);
  const RecordReader reader(name);
  std::vector<Meter> meters;
  for (const ValueNode& node : reader.list(reader.field(document.root, "meters")))
    meters.push_back(meter_from(reader, node));
  return meters;
}

std::string settings_record(const JudgeSettings& settings) {
  return record_text({{"confidence", number_record(settings.confidence)}});
}

JudgeSettings settings_from_record(std::string_view record, const std::string& name) {
  const Document document = parse_record(record, name);
  const RecordReader reader(name);
  return {reader.number(reader.field(document.root, "confidence"))};
}

bool equal(const Meter& a, const Meter& b) {
  const StatedValue& leads_a = a.lead_resistance;
  const StatedValue& leads_b = b.lead_resistance;
  return a.name == b.name && a.title == b.title && a.source == b.source && a.low_impedance == b.low_impedance &&
         a.sets_range_itself == b.sets_range_itself && same_bits(leads_a.value, leads_b.value) &&
         same_bits(leads_a.half_width, leads_b.half_width) && leads_a.unit == leads_b.unit &&
         leads_a.unit_assumed == leads_b.unit_assumed &&
         std::equal(a.functions.begin(), a.functions.end(), b.functions.begin(), b.functions.end(), equal_functions);
}

}  // namespace ohmwright
