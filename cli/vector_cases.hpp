#pragma once

#include <string>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/vectors_document.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/report/paragraph.hpp>

namespace ohmwright::cli {

/// A case without its answer: what is known of the part, and what was read of it.
std::string case_question(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters,
                          const PageStyle& style);

/// The page of its verdict, then what the vector expects and where that comes from.
std::string case_answer(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters,
                        const PageStyle& style);

}  // namespace ohmwright::cli
