#pragma once

#include <fstream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/observed.hpp>

#include "kind_of_file.hpp"
#include "test_kind.hpp"

// The kind of coil.kind.json, changed here and there, and readings for it.

namespace ohmwright::kind_file::testing_support {

/// A text and what stands in its place.
struct Change {
  std::string from;
  std::string to;
};

inline std::string coil_text(const std::vector<Change>& changes = {}) {
  std::ifstream file(OHMWRIGHT_COIL_FILE, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  for (const Change& change : changes) {
    const std::size_t at = text.find(change.from);
    if (at == std::string::npos) throw std::runtime_error("not in the file: " + change.from);
    text.replace(at, change.from.size(), change.to);
  }
  return text;
}

inline std::unique_ptr<Kind> coil(const std::vector<Change>& changes = {}) {
  const Document document = parse_document(coil_text(changes), "coil");
  std::vector<Problem> problems = kind_schema().problems(document.root);
  std::unique_ptr<Kind> kind;
  if (problems.empty()) kind = kind_of(document.root, problems);
  for (const Problem& p : problems) throw std::runtime_error(std::to_string(p.line) + " " + p.pointer + ": " + p.text);
  return kind;
}

inline std::shared_ptr<const Part> part_of(const Kind& kind, const std::string& ratings) {
  std::vector<Problem> problems;
  std::shared_ptr<const Part> part;
  if (ratings.empty()) {
    part = kind.make_part(nullptr, problems);
  } else {
    const Document document = parse_document(ratings, "ratings");
    part = kind.make_part(&document.root, problems);
  }
  for (const Problem& p : problems) throw std::runtime_error(p.pointer + ": " + p.text);
  return part;
}

/// How a reading is written in these tests.
struct Typed {
  std::string value;
  std::string at = {};
  Connection connection = Connection::lead_off;
  std::string measurand = "resistance";
  Supply supply = Supply::proved_dead;
  Moisture moisture = Moisture::dry;
  std::string line = {};
  std::string range = {};
  std::vector<NamedState> states = {};
};

inline std::vector<Reading> readings_of(const Kind& kind, const std::vector<Typed>& typed) {
  const Descriptor& descriptor = kind.descriptor();
  std::vector<Reading> readings;
  for (const Typed& one : typed) {
    const MeasurandDescriptor& measurand = descriptor.measurands[index_of(descriptor.measurands, one.measurand)];
    Reading reading{.measurand = one.measurand,
                    .observed = parse_observed(one.value, measurand.dimension, observed_options(measurand, nullptr))};
    const auto add = [&](std::string_view id, const std::string& text) {
      if (text.empty()) return;
      const ConditionDescriptor& condition = descriptor.conditions[index_of(descriptor.conditions, id)];
      reading.conditions.push_back(
          stated_condition(condition, parse_stated_value(text, condition.dimension), "shared"));
    };
    add("part_temperature", one.at);
    add("line_voltage", one.line);
    reading.connection = one.connection;
    reading.supply = one.supply;
    reading.moisture = one.moisture;
    reading.states = one.states;
    if (!one.range.empty()) reading.range = parse_stated_value(one.range, measurand.dimension).value;
    readings.push_back(std::move(reading));
  }
  return readings;
}

inline MeterSet meters(std::string_view leads = "0.2 ohm +- 0.05 ohm", double counts = 3.0) {
  Meter meter = testing::basic_meter(leads, counts);
  MeterFunction amperes;
  amperes.dimension = Dimension::current;
  amperes.ranges.push_back({AnyQuantity(Dimension::current, 60.0), 0.5, 2.0, AnyQuantity(Dimension::current, 0.01)});
  meter.functions.push_back(amperes);
  return MeterSet({meter});
}

/// A verdict, asked by the ids of its rules.
struct Judged {
  Verdict verdict;
  const Descriptor* descriptor = nullptr;

  const Finding& of(std::string_view rule) const {
    for (const Finding& finding : verdict.findings)
      if (descriptor->rules[finding.rule].id == rule) return finding;
    throw std::runtime_error("no finding of " + std::string(rule));
  }
  Outcome outcome(std::string_view rule) const { return of(rule).outcome; }
  std::string_view text(std::string_view rule) const {
    return descriptor->rules[of(rule).rule].texts[of(rule).text].id;
  }
  double argument(std::string_view rule, std::string_view name) const {
    for (const FindingArgument& argument : of(rule).arguments) {
      if (argument.name != name) continue;
      if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return quantity->value_in_si();
      return std::get<double>(argument.value);
    }
    throw std::runtime_error("no argument " + std::string(name));
  }
  std::vector<std::string_view> advice() const {
    std::vector<std::string_view> ids;
    for (const Advice& one : verdict.advice) ids.push_back(descriptor->advice[one.text].id);
    return ids;
  }
};

inline Judged judged(const Kind& kind, const std::string& ratings, const std::vector<Typed>& typed,
                     const MeterSet& with = meters(), double confidence = 0.95) {
  const auto part = part_of(kind, ratings);
  const Evidence evidence(kind.descriptor(), readings_of(kind, typed), with);
  return {judge(*part, kind.descriptor(), evidence, {confidence}), &kind.descriptor()};
}

}  // namespace ohmwright::kind_file::testing_support
