#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/vectors_document.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>

namespace ohmwright {

/// A kind and the cases that it is tried with.
struct KindCases {
  const LoadedKind& kind;
  const std::vector<VectorCase>& cases;
  const MeterSet& meters;
};

/// A promise that holds for every kind, written once and tried on each with its own cases.
struct Contract {
  std::string_view id;
  std::string_view promise;  ///< an English sentence, translated when printed
  /// Where the kind breaks it, "CASE: what happened", and what to mend; empty where it keeps it.
  std::vector<std::string> (*breaches)(const KindCases&) = nullptr;
  /// Why nothing of the kind could be tried, an English sentence; empty where something was. Null: something always is.
  std::string_view (*why_not_tried)(const KindCases&) = nullptr;
};

/// All promises, in the order in which a report shows them.
std::span<const Contract> contracts();

// The promises one by one, as the table has them.

/// The same readings give the same verdict twice.
std::vector<std::string> breaches_of_repeatability(const KindCases& tried);
/// A verdict survives JSON: judged in a forked child through records it is equal bit for bit.
std::vector<std::string> breaches_of_records(const KindCases& tried);
/// A verdict has a finding of that outcome, or is undecided.
std::vector<std::string> breaches_of_reasons(const KindCases& tried);
/// Every rule speaks, be it that it says why it is silent.
std::vector<std::string> breaches_of_speaking(const KindCases& tried);
/// Every sentence gets a value for each of its fields.
std::vector<std::string> breaches_of_fields(const KindCases& tried);
/// Without a reading nothing is decided.
std::vector<std::string> breaches_of_nothing_read(const KindCases& tried);
/// Ohms and farads read in circuit alone never pass a part, nor do they turn an undecided one into a pass.
std::vector<std::string> breaches_of_circuit(const KindCases& tried);
/// A part that passes by ohms with a lead off is not condemned by OL in circuit, its points proved dead and, where the
/// kind has such a measurand ("NAME_swapped"), its probes swapped: the lead or the splice is open.
std::vector<std::string> breaches_of_reading_alone(const KindCases& tried);
/// OL tells no more than the range that was set: on the lowest it never passes what a value beyond that range does not,
/// nor condemns what passes with one.
std::vector<std::string> breaches_of_range(const KindCases& tried);
/// Who types each reading twice has learned nothing new.
std::vector<std::string> breaches_of_doubling(const KindCases& tried);
/// One reading far off among many is never passed over.
std::vector<std::string> breaches_of_outlier(const KindCases& tried);
/// OL, or "open", behind good ohms of a part that it condemns alone is never passed over, nor is "closed" behind what
/// is open; nor before them.
std::vector<std::string> breaches_of_contradiction(const KindCases& tried);
/// What is not a number is never a pass.
std::vector<std::string> breaches_of_not_a_number(const KindCases& tried);
/// Whatever is read, no finding contradicts its own numbers.
std::vector<std::string> breaches_of_numbers(const KindCases& tried);
/// Electrical models and expectations can be used, for every fault, state and end of a chart.
std::vector<std::string> breaches_of_models(const KindCases& tried);
/// No part that is good by the electrical model of a class of ratings is condemned by the rules.
std::vector<std::string> breaches_of_good_parts(const KindCases& tried);
/// Why `breaches_of_good_parts` had nothing to read; empty where some model says what a measurand reads.
std::string_view why_no_good_part_was_tried(const KindCases& tried);
/// No class of ratings is found to be no replacement for itself.
std::vector<std::string> breaches_of_likeness(const KindCases& tried);
/// Several threads that judge different readings at once get the verdicts that one alone gets.
std::vector<std::string> breaches_of_threads(const KindCases& tried);
/// A stated probability is the share of true parts: readings are drawn from their errors with a fixed seed, and each
/// truth is judged without any. Where a case has a state, a repeat, or the doubt of a model, it is left out.
std::vector<std::string> breaches_of_calibration(const KindCases& tried);
/// Making and judging parts again and again keeps no memory. Measured by the allocator; nothing where it does not count
/// (under a sanitizer).
std::vector<std::string> breaches_of_memory(const KindCases& tried);

}  // namespace ohmwright
