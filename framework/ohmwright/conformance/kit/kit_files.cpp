// The kit's checks of the files beside a kind: ratings, vectors.

#include <string>
#include <utility>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/conformance/kit/kit.hpp>
#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/verdict_record.hpp>
#include <ohmwright/plugin/kind_file.hpp>

namespace ohmwright {

bool is_of_kind_file(const LoadedKind& kind) { return is_named_as_kind_file(kind.path()); }

std::vector<std::string> wrong_ratings(const LoadedKind& kind) {
  std::vector<std::string> wrong;
  const std::string folder = kind.ratings_folder().string();
  for (const std::string& name : names_in_folder(folder)) {
    try {
      const RatingsDocument ratings =
          read_ratings(read_document_to_check(folder + "/" + name + ".json"), kind.descriptor());
      std::vector<Problem> problems;
      const auto part = kind.make_part(ratings.ratings, problems);
      ratings.refuse_if_any(std::move(problems));
      if (ratings.name != name) wrong.push_back("ratings/" + name + ".json: its \"name\" is not that of the file");
    } catch (const Error& error) {
      wrong.emplace_back(error.what());
    }
  }
  if (names_in_folder(folder).empty())
    wrong.emplace_back("there is no class in ratings/; write one, so that --ratings NAME has something to name");
  return wrong;
}

std::vector<std::string> wrong_vectors(const LoadedKind& kind, const MeterSet& meters, KitVectors& vectors) {
  std::vector<std::string> wrong;
  const std::string folder = kind.vectors_folder().string();
  for (const std::string& file : names_in_folder(folder)) {
    try {
      vectors.documents.push_back(
          read_vectors(read_document_to_check(folder + "/" + file + ".json"), kind.descriptor(), &meters));
      const std::vector<VectorCase>& cases = vectors.documents.back().cases;
      vectors.cases.insert(vectors.cases.end(), cases.begin(), cases.end());
    } catch (const Error& error) {
      wrong.emplace_back(error.what());
    }
  }
  for (const VectorCase& vector : vectors.cases)
    for (const std::string& difference : check_vector(kind, vector, meters))
      wrong.push_back(vector.id + ": " + difference);
  if (vectors.cases.empty() && wrong.empty())
    wrong.emplace_back("there is no case in vectors/; without one nothing shows that the kind judges rightly");
  return wrong;
}

std::vector<std::string> missing_outcomes(const LoadedKind& kind, const MeterSet& meters, const KitVectors& vectors) {
  std::vector<std::string> missing;
  for (const std::string& outcome : outcomes_without_a_vector(kind, vectors.cases, meters))
    missing.push_back(outcome + ": write a vector that shows it, or do not declare it");
  return missing;
}

std::vector<std::string> differing_verdicts(const LoadedKind& here, const LoadedKind& there, const MeterSet& meters) {
  KitVectors vectors;
  (void)wrong_vectors(here, meters, vectors);  // what is wrong with them has been told
  std::vector<std::string> differing;
  for (const VectorCase& vector : vectors.cases) {
    const auto of_here = judged_case(here, prepare_vector(here, vector, meters), vector.readings);
    const auto of_there = judged_case(there, prepare_vector(there, vector, meters), vector.readings);
    const auto* verdict = std::get_if<Verdict>(&of_here);
    const auto* other = std::get_if<Verdict>(&of_there);
    if (other == nullptr)
      differing.push_back(vector.id + ": " + std::get<NotJudged>(of_there).text);
    else if (verdict == nullptr || !equal(*verdict, *other))
      differing.push_back(vector.id + ": it says something else there; judge by what Evidence holds, and by no file");
  }
  return differing;
}

}  // namespace ohmwright
