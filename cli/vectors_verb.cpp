#include <ostream>

#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

MeterSet shipped_meters(const Environment& environment) {
  std::vector<Meter> meters{chosen_meter(environment, "")};
  for (const std::string& name : names_in_folder(environment.locations.meters.string()))
    if (name != meters.front().name) meters.push_back(chosen_meter(environment, name));
  return MeterSet(std::move(meters));
}

struct Tally {
  int agreed = 0;
  int differed = 0;
};

void check_kind(const std::string& name, const MeterSet& meters, Environment& environment, Tally& tally) {
  const LoadedKind& kind = open_kind(environment, name);
  const std::string folder = kind.vectors_folder().string();
  for (const std::string& file : names_in_folder(folder)) {
    const VectorsDocument vectors =
        read_vectors(read_document(folder + "/" + file + ".json"), kind.descriptor(), &meters);
    for (const VectorCase& vector : vectors.cases) {
      const std::vector<std::string> differences = check_vector(kind, vector, meters);
      ++(differences.empty() ? tally.agreed : tally.differed);
      for (const std::string& difference : differences)
        environment.out << paragraph(name + " " + vector.id + ": " + difference, environment.page.width, "", "    ");
    }
  }
}

int run_vectors(const Arguments& arguments, Environment& environment) {
  const MeterSet meters = shipped_meters(environment);
  std::vector<std::string> kinds = arguments.operands;
  if (kinds.empty())
    for (const FoundPlugin& plugin : environment.registry.plugins())
      for (const StampedKind& kind : plugin.kinds) kinds.push_back(kind.id);
  Tally tally;
  for (const std::string& kind : kinds) check_kind(kind, meters, environment, tally);
  const Sentences say{UnitPreferences{}};
  if (tally.agreed + tally.differed == 0) {
    environment.out << say(OHMWRIGHT_TEXT("there are no vectors")) << '\n';
    return exit_done;
  }
  environment.out << say(OHMWRIGHT_TEXT("vectors: {agreed} agree, {differed} differ"),
                         {{"agreed", std::to_string(tally.agreed)}, {"differed", std::to_string(tally.differed)}})
                  << '\n';
  return tally.differed == 0 ? exit_done : exit_out_of_limits;
}

}  // namespace

VerbSpec vectors_verb() {
  return {
      .name = "vectors",
      .summary = OHMWRIGHT_TEXT("Judge the test vectors of a kind, or of all, and say where a verdict differs"),
      .example = "ohmwright vectors thermistor",
      .operands = {{"KIND", OHMWRIGHT_TEXT("Only these kinds"), false, true}},
      .options = {},
      .circumstances = {},
      .takes_conditions = false,
      .run = run_vectors,
  };
}

}  // namespace ohmwright::cli
