#include <utility>

#include <ohmwright/conformance/kit/contract.hpp>
#include <ohmwright/conformance/kit/kit.hpp>
#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {

namespace {

/// Runs one check; what it throws is something to mend, too. `why_not` says why there was nothing to try, or nothing.
template <class Check, class WhyNot>
void try_out(std::string_view id, std::string_view title, const KitListener& listener, Check check, WhyNot why_not) {
  KitCheck result{id, title, {}};
  listener.begins(result);
  if (const auto thrown = guarded([&] { result.to_mend = check(); })) result.to_mend.push_back(*thrown);
  if (result.to_mend.empty())
    if (const auto thrown = guarded([&] { result.not_tried = why_not(); })) result.to_mend.push_back(*thrown);
  listener.ends(result);
}

template <class Check>
void try_out(std::string_view id, std::string_view title, const KitListener& listener, Check check) {
  try_out(id, title, listener, check, [] { return std::string_view(); });
}

}  // namespace

void run_kit(const LoadedKind& kind, const MeterSet& meters, const KitListener& listener) {
  if (!is_of_kind_file(kind))
    try_out("exports", OHMWRIGHT_TEXT("it exports the two symbols of the boundary and nothing else"), listener,
            [&] { return wrong_exports(kind); });
  try_out("descriptor",
          OHMWRIGHT_TEXT("everything that can be read has a procedure with its cautions, every figure a source"),
          listener, [&] { return gaps_of_descriptor(kind.descriptor()); });
  try_out("ratings-schema", OHMWRIGHT_TEXT("the schema of its ratings is one"), listener,
          [&] { return wrong_schema(kind.descriptor()); });
  try_out("ratings", OHMWRIGHT_TEXT("its classes of ratings are right"), listener, [&] { return wrong_ratings(kind); });
  try_out("unknown-part", OHMWRIGHT_TEXT("a part of which nothing is known can be made"), listener,
          [&] { return wrong_unknown_part(kind); });
  try_out("placeholders", OHMWRIGHT_TEXT("no figure and no text is a placeholder"), listener,
          [&] { return placeholders_of(kind); });
  KitVectors vectors;
  try_out("vectors", OHMWRIGHT_TEXT("its vectors give the verdicts they expect"), listener,
          [&] { return wrong_vectors(kind, meters, vectors); });
  if (vectors.cases.empty()) return;
  try_out("outcomes", OHMWRIGHT_TEXT("every outcome that a rule declares has a vector"), listener,
          [&] { return missing_outcomes(kind, meters, vectors); });
  const KindCases tried{kind, vectors.cases, meters};
  for (const Contract& contract : contracts())
    try_out(
        contract.id, contract.promise, listener, [&] { return contract.breaches(tried); },
        [&] { return contract.why_not_tried != nullptr ? contract.why_not_tried(tried) : std::string_view(); });
}

}  // namespace ohmwright
