// Reads any bytes as a kind file. What is accepted is a kind whose descriptor the host accepts and whose part can be
// judged; what is refused is told with text that a terminal takes. Nothing else may happen.
#include <cstdint>
#include <cstdio>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/plugin/descriptor_check.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/kind_file.hpp>

#include "document_fuzz.hpp"
#include "kind_of_file.hpp"

namespace {

using namespace ohmwright;

MeterSet meters() {
  return MeterSet({Meter{.name = "meter",
                         .title = "Meter",
                         .source = "none",
                         .functions = {},
                         .lead_resistance = parse_stated_value("0.2 ohm +- 0.05 ohm", Dimension::resistance)}});
}

/// One reading of every measurand, with every condition, each stated with its doubt.
std::vector<Reading> readings_of(const Descriptor& descriptor) {
  std::vector<Reading> readings;
  for (const MeasurandDescriptor& measurand : descriptor.measurands) {
    const Unit unit = Unit::si(measurand.dimension);
    Reading reading{.measurand = std::string(measurand.id),
                    .observed = StatedValue{AnyQuantity(measurand.dimension, 300.0), 1.0, unit}};
    for (const ConditionDescriptor& condition : descriptor.conditions) {
      reading.conditions.push_back({std::string(condition.id), StatedValue{AnyQuantity(condition.dimension, 300.0), 1.0,
                                                                           Unit::si(condition.dimension)}});
    }
    readings.push_back(std::move(reading));
  }
  return readings;
}

void require_sound(const Kind& kind) {
  const Descriptor& descriptor = kind.descriptor();
  StampedKind names{std::string(descriptor.id), {}};
  for (const std::string_view alias : descriptor.aliases) names.aliases.emplace_back(alias);
  for (const std::string& reason : descriptor_problems(descriptor, names)) {
    const bool of_the_host = reason.find("the program's own") != std::string::npos;  // what read_kind_file looks at
    if (!of_the_host) std::fprintf(stderr, "%s\n", reason.c_str());
    fuzz::require(of_the_host);
  }
  std::vector<Problem> problems;
  const std::unique_ptr<const Part> part = kind.make_part(nullptr, problems);
  fuzz::require(part != nullptr && problems.empty());
  const Evidence evidence(descriptor, readings_of(descriptor), meters());
  Findings findings;
  const auto failed = run_rules(*part, descriptor, evidence, {}, findings);
  if (failed) std::fprintf(stderr, "%s\n", failed->text.c_str());
  fuzz::require(!failed.has_value());
  std::vector<Element> elements;
  part->electrical_model(not_found, {}, elements);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const Document document = parse_document(text, "file");
    if (!kind_schema().problems(document.root).empty()) return 0;
    std::vector<Problem> problems;
    const std::unique_ptr<Kind> kind = kind_file::kind_of(document.root, problems);
    for (const std::string& reason : reasons_of(problems)) fuzz::require_printable(reason);
    fuzz::require((kind == nullptr) == !problems.empty());
    if (kind != nullptr) require_sound(*kind);
  } catch (const DocumentError& refusal) {
    fuzz::require_printable(refusal.what());
  }
  return 0;
}
