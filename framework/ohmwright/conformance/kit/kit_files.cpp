// The kit's checks of the files beside a kind: ratings, vectors, placeholders.

#include <fstream>
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

namespace {

/// Every text below a node that holds the word, with its place.
void find_placeholders(const ValueNode& node, const std::string& file, std::vector<std::string>& found) {
  if (const std::string* text = node.text(); text != nullptr && text->find(placeholder) != std::string::npos)
    found.push_back(file + ":" + std::to_string(node.line()) + ": " + node.pointer() + ": " + *text);
  if (const ValueNode::Array* items = node.array())
    for (const ValueNode& item : *items) find_placeholders(item, file, found);
  if (const ValueNode::Members* members = node.members())
    for (const auto& [name, member] : *members) find_placeholders(member, file, found);
}

void find_in_folder(const std::filesystem::path& folder, std::vector<std::string>& found) {
  for (const std::string& name : names_in_folder(folder.string())) {
    const std::filesystem::path file = folder / (name + ".json");
    find_placeholders(read_document(file.string()).root, (folder.filename() / file.filename()).string(), found);
  }
}

void find_in_readme(const std::filesystem::path& folder, std::vector<std::string>& found) {
  std::ifstream readme(folder / "README.md");
  int number = 0;
  for (std::string line; std::getline(readme, line);) {
    ++number;
    if (line.find("(" + std::string(placeholder)) != std::string::npos)
      found.push_back("README.md:" + std::to_string(number) + ": " + line);
  }
}

void find_in_descriptor(const Descriptor& descriptor, std::vector<std::string>& found) {
  const auto look = [&](std::string_view sort, std::string_view id, std::string_view text) {
    if (text.find(placeholder) != std::string_view::npos)
      found.push_back(std::string(sort) + " " + std::string(id) + ": " + std::string(text));
  };
  look("kind", descriptor.id, descriptor.title);
  for (const RuleDescriptor& rule : descriptor.rules) look("rule", rule.id, rule.source);
  for (const ConditionDescriptor& condition : descriptor.conditions)
    look("condition", condition.id, condition.default_half_width_source);
  for (const FaultModeDescriptor& mode : descriptor.fault_modes) look("fault mode", mode.id, mode.prior_source);
  for (const CautionDescriptor& caution : descriptor.cautions) look("caution", caution.id, caution.source);
}

}  // namespace

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

std::vector<std::string> placeholders_of(const LoadedKind& kind) {
  std::vector<std::string> found;
  if (is_of_kind_file(kind))  // what stands in it is told with its line
    find_placeholders(read_document(kind.path().string()).root, kind.path().filename().string(), found);
  else
    find_in_descriptor(kind.descriptor(), found);
  find_in_folder(kind.ratings_folder(), found);
  find_in_folder(kind.vectors_folder(), found);
  find_in_readme(kind.data_folder(), found);
  return found;
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
