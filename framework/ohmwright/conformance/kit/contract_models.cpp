// Promises about what a part says of itself beside verdicts: its electrical models, what a good one reads, a
// comparison.

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/conformance/kit/tried_situations.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/model_check.hpp>

namespace ohmwright {

namespace {

/// Calls `into_plugin` and tells what it threw, or what `misuse` finds in what it gave.
template <class Call, class Say>
void try_call(Call&& into_plugin, const std::string& where, Say& say) {
  std::optional<std::string> misuse;
  if (const auto thrown = guarded([&] { misuse = into_plugin(); })) misuse = "it threw: " + *thrown;
  if (misuse) say(where + *misuse);
}

template <class Say>
void try_models(const Part& part, const Descriptor& descriptor, Situation situation, Say& say) {
  constexpr std::array excitations{Excitation::ohmmeter, Excitation::direct_supply, Excitation::alternating_supply};
  for (std::size_t i = 0; i <= descriptor.fault_modes.size(); ++i) {
    const bool is_healthy = i == descriptor.fault_modes.size();
    const std::string where = is_healthy ? "healthy: " : std::string(descriptor.fault_modes[i].id) + ": ";
    for (const Excitation excitation : excitations) {
      situation.excitation = excitation;
      try_call(
          [&] {
            std::vector<Element> elements;
            part.electrical_model(is_healthy ? not_found : static_cast<std::uint16_t>(i), situation, elements);
            return misuse_of_elements(elements, descriptor);
          },
          where, say);
    }
  }
}

template <class Say>
void try_expectations(const Part& part, const Descriptor& descriptor, const Situation& situation, Say& say) {
  for (std::uint16_t measurand = 0; measurand < descriptor.measurands.size(); ++measurand)
    try_call(
        [&]() -> std::optional<std::string> {
          const auto expected = part.expect(measurand, situation);
          return expected ? misuse_of_expectation(*expected, descriptor.measurands[measurand]) : std::nullopt;
        },
        "", say);
}

}  // namespace

std::vector<std::string> breaches_of_models(const KindCases& tried) {
  const Descriptor& descriptor = tried.kind.descriptor();
  const std::vector<Situation> situations = tried_situations(descriptor);
  std::vector<std::string> breaches;
  for (const VectorCase& vector : tried.cases) {
    const auto say = [&](const std::string& what) { breaches.push_back(vector.id + ": " + what); };
    const std::shared_ptr<const Part> part = prepare_vector(tried.kind, vector, tried.meters).part;
    for (const Situation& situation : situations) {
      try_models(*part, descriptor, situation, say);
      try_expectations(*part, descriptor, situation, say);
    }
    if (!breaches.empty()) return breaches;  // the other cases would say the same
  }
  return breaches;
}

std::vector<std::string> breaches_of_likeness(const KindCases& tried) {
  std::vector<std::string> breaches;
  const std::string folder = tried.kind.ratings_folder().string();
  // Of its classes alone: a case may hold a part that is wrong for the control beside it, and so is another such part.
  for (const std::string& name : names_in_folder(folder)) {
    const auto say = [&](const std::string& what) { breaches.push_back(name + ": " + what); };
    try_call(
        [&]() -> std::optional<std::string> {
          const RatingsDocument ratings =
              read_ratings(read_document_to_check(folder + "/" + name + ".json"), tried.kind.descriptor());
          std::vector<Problem> problems;
          const auto part = tried.kind.make_part(ratings.ratings, problems);
          if (part == nullptr) return std::nullopt;  // told of where its classes are looked at
          const auto findings = tried.kind.kind().compare(*part, *part, {});
          if (auto misuse = misuse_of_comparison(findings)) return misuse;
          const bool differs = std::any_of(findings.begin(), findings.end(), [](const EquivalenceFinding& finding) {
            return finding.outcome == Outcome::out_of_limits;
          });
          return differs ? std::optional<std::string>("compared with itself it is no replacement") : std::nullopt;
        },
        "", say);
  }
  return breaches;
}

}  // namespace ohmwright
