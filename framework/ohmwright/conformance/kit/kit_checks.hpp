#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/vectors_document.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>

namespace ohmwright {

// The checks of the kit beside the contracts. Each gives what is to be mended, one line each, with the way on.

bool is_of_kind_file(const LoadedKind& kind);

/// Symbols that the library exports beside the two of the boundary, and those of the two that are missing.
std::vector<std::string> wrong_exports(const LoadedKind& kind);

/// What the loader lets through and a technician would miss: procedures, cautions, sources.
std::vector<std::string> gaps_of_descriptor(const Descriptor& descriptor);

std::vector<std::string> wrong_schema(const Descriptor& descriptor);
std::vector<std::string> wrong_ratings(const LoadedKind& kind);
std::vector<std::string> wrong_unknown_part(const LoadedKind& kind);

/// Texts that somebody has still to write (`holds_placeholder`), of the descriptor, of the files beside it and of its
/// README, each with its place.
std::vector<std::string> placeholders_of(const LoadedKind& kind);

/// The vectors of a kind, with the documents that they point into.
struct KitVectors {
  std::vector<VectorsDocument> documents;
  std::vector<VectorCase> cases;
};

/// Reads and judges the vectors; `vectors` gets those that could be read.
std::vector<std::string> wrong_vectors(const LoadedKind& kind, const MeterSet& meters, KitVectors& vectors);

/// Cases whose verdicts differ between two loadings of a kind, in the program and in a worker.
std::vector<std::string> differing_verdicts(const LoadedKind& here, const LoadedKind& there, const MeterSet& meters);
std::vector<std::string> missing_outcomes(const LoadedKind& kind, const MeterSet& meters, const KitVectors& vectors);

}  // namespace ohmwright
