#include <algorithm>
#include <ostream>

#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "ending.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "vector_cases.hpp"
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

/// Shows every case of a kind to `show`, file by file.
template <typename Show>
void for_each_case(const LoadedKind& kind, const MeterSet& meters, Show show) {
  const std::string folder = kind.vectors_folder().string();
  for (const std::string& file : names_in_folder(folder)) {
    const VectorsDocument vectors =
        read_vectors(read_document_to_check(folder + "/" + file + ".json"), kind.descriptor(), &meters);
    for (const VectorCase& vector : vectors.cases) show(vector);
  }
}

void check_kind(const std::string& name, const MeterSet& meters, Environment& environment, Tally& tally) {
  const LoadedKind& kind = open_kind(environment, name);
  tell_of_other_builds(environment, kind);
  for_each_case(kind, meters, [&](const VectorCase& vector) {
    const std::vector<std::string> differences = check_vector(kind, vector, meters);
    ++(differences.empty() ? tally.agreed : tally.differed);
    for (const std::string& difference : differences)
      environment.out << paragraph(name + " " + vector.id + ": " + difference, environment.page.width, "", "    ");
  });
}

void list_cases(const LoadedKind& kind, const MeterSet& meters, Environment& environment) {
  for_each_case(kind, meters, [&](const VectorCase& vector) {
    environment.out << paragraph(vector.id + ": " + vector.title, environment.page.width, "", "    ");
  });
}

void show_case(const LoadedKind& kind, const MeterSet& meters, const std::string& id, bool with_answer,
               Environment& environment) {
  std::vector<std::string> ids;
  bool found = false;
  for_each_case(kind, meters, [&](const VectorCase& vector) {
    ids.push_back(vector.id);
    if (vector.id != id) return;
    found = true;
    environment.out << (with_answer ? case_answer(kind, vector, meters, environment.page)
                                    : case_question(kind, vector, meters, environment.page));
  });
  if (!found)
    throw InputError(std::string(kind.descriptor().id) + " has no case " + ohmwright::quoted(id) +
                     did_you_mean(id, ids) + "; --list shows them");
}

/// The one kind whose cases are wanted. Throws InputError for none and for several.
const LoadedKind& kind_of_cases(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.size() == 1) return open_kind(environment, arguments.operands.front());
  throw InputError("--list and --case take one kind: ohmwright vectors thermistor --list");
}

int run_vectors(const Arguments& arguments, Environment& environment) {
  const MeterSet meters = shipped_meters(environment);
  if (arguments.has("--answer") && !arguments.has("--case"))
    throw InputError("--answer goes with --case: ohmwright vectors thermistor --case ID --answer");
  if (arguments.has("--list")) list_cases(kind_of_cases(arguments, environment), meters, environment);
  if (arguments.has("--case"))
    show_case(kind_of_cases(arguments, environment), meters, arguments.value("--case"), arguments.has("--answer"),
              environment);
  if (arguments.has("--list") || arguments.has("--case")) return exit_done;
  std::vector<std::string> kinds = arguments.operands;
  if (kinds.empty())
    for (const FoundPlugin& plugin : environment.registry.plugins())
      for (const StampedKind& kind : plugin.kinds) kinds.push_back(kind.id);
  Tally tally;
  // One kind or file that is refused is told, and ends nothing: the others' cases are judged all the same.
  int refused = exit_done;
  if (kinds.size() == 1) check_kind(kinds.front(), meters, environment, tally);
  for (std::size_t i = 0; kinds.size() > 1 && i < kinds.size(); ++i)
    refused = std::max(refused, ending_of(
                                    [&] {
                                      check_kind(kinds[i], meters, environment, tally);
                                      return exit_done;
                                    },
                                    environment.err));
  const Sentences say{UnitPreferences{}};
  if (tally.agreed + tally.differed == 0) {
    environment.out << say(OHMWRIGHT_TEXT("there are no vectors")) << '\n';
    return refused;
  }
  environment.out << say(OHMWRIGHT_TEXT("vectors: {agreed} agree, {differed} differ"),
                         {{"agreed", std::to_string(tally.agreed)}, {"differed", std::to_string(tally.differed)}})
                  << '\n';
  if (refused != exit_done) return refused;
  return tally.differed == 0 ? exit_done : exit_out_of_limits;
}

}  // namespace

VerbSpec vectors_verb() {
  return {
      .name = "vectors",
      .summary = OHMWRIGHT_TEXT("Judge the test vectors of a kind, or of all, and say where a verdict differs"),
      .example = "ohmwright vectors thermistor",
      .operands = {{"KIND", OHMWRIGHT_TEXT("Only these kinds"), false, true}},
      .options =
          {
              {"--list", "", OHMWRIGHT_TEXT("List the cases of a kind instead"), {}},
              {"--case", "ID", OHMWRIGHT_TEXT("Show one case as a question: the part, the readings, no verdict"), {}},
              {"--answer", "", OHMWRIGHT_TEXT("With --case: the verdict, its reasons and where the case is from"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_vectors,
  };
}

}  // namespace ohmwright::cli
