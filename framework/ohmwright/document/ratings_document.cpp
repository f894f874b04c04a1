#include <algorithm>
#include <utility>

#include <ohmwright/document/checked_files.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {

namespace {

RatingsDocument frame_of(Document document) {
  const auto kept = std::make_shared<const Document>(std::move(document));
  const ValueNode& root = kept->root;
  return {text_of(root, "kind"),
          text_of(root, "name"),
          text_of(root, "title"),
          text_of(root, "source"),
          root.find("ratings"),
          kept->file,
          kept};
}

/// A part that no kind is for is not made one of another kind by the name of its ratings.
void check_refused_work(const ValueNode& root, std::vector<Problem>& problems) {
  for (const char* field : {"name", "title"}) {
    const ValueNode* node = root.find(field);
    if (node == nullptr || node->text() == nullptr) continue;
    if (const std::string_view reason = refused_work(*node->text()); !reason.empty())
      problems.push_back(node->problem(ohmwright::quoted(*node->text()) + ": " + std::string(reason)));
  }
}

constexpr std::string_view control_pointer = "/control";

/// The members of the ratings, that of the control replaced.
ValueNode ratings_with(const ValueNode& ratings, std::string_view member, const ValueNode& control) {
  ValueNode::Members members;
  for (const auto& [name, value] : *ratings.members())
    if (name != member) members.emplace_back(name, value);
  members.emplace_back(member, control);
  return {std::move(members), ratings.pointer(), ratings.line()};
}

}  // namespace

void RatingsDocument::refuse_if_any(std::vector<Problem> problems) const {
  const auto of_control = std::stable_partition(problems.begin(), problems.end(), [this](const Problem& problem) {
    return control_file.empty() || problem.pointer.rfind(control_pointer, 0) != 0;
  });
  if (of_control != problems.begin()) throw DocumentError(file, std::vector<Problem>(problems.begin(), of_control));
  if (!problems.empty()) throw DocumentError(control_file, std::move(problems));
}

RatingsDocument with_control(const RatingsDocument& ratings, const Document& control, const Descriptor& descriptor) {
  if (descriptor.control_member.empty())
    throw InputError(with_article(descriptor.id) + " has no control that could be named");
  std::vector<Problem> problems = control_schema().problems(control);
  check_kind(control.root, descriptor, problems);
  ohmwright::refuse_if_any(control.file, std::move(problems));
  const ValueNode merged = ratings_with(*ratings.ratings, descriptor.control_member, *control.root.find("control"));
  ValueNode::Members frame{{"ratings", merged}};
  RatingsDocument result = ratings;
  result.document = std::make_shared<const Document>(
      Document{ratings.file, ValueNode(std::move(frame), ratings.document->root.pointer(), 1)});
  result.ratings = result.document->root.find("ratings");
  result.control_file = control.file;
  result.refuse_if_any(ratings_schema_of(descriptor).problems(*result.ratings));
  return result;
}

Schema ratings_schema_of(const Descriptor& descriptor) {
  return {descriptor.ratings_schema, "the schema of the ratings of " + std::string(descriptor.id),
          ErrorCategory::plugin};
}

RatingsDocument read_ratings(Document document, const Descriptor& descriptor, const Schema& schema_of_kind) {
  std::vector<Problem> problems = ratings_schema().problems(document);
  check_kind(document.root, descriptor, problems);
  check_refused_work(document.root, problems);
  const ValueNode* ratings = document.root.find("ratings");
  if (ratings != nullptr && ratings->members() != nullptr)
    for (Problem& problem : schema_of_kind.problems(*ratings)) problems.push_back(std::move(problem));
  refuse_if_any(document.file, std::move(problems));
  return frame_of(std::move(document));
}

RatingsDocument read_ratings(Document document, const Descriptor& descriptor) {
  return read_ratings(std::move(document), descriptor, ratings_schema_of(descriptor));
}

RatingsDocument read_ratings_file(const std::string& path, const Descriptor& descriptor) {
  const std::string text = read_source(path, DocumentLimits{}.bytes);
  Document document = parse_document_to_check(text, name_of_source(path));
  const bool is_known = document.problems.empty() && text_of(document.root, "kind") == descriptor.id &&
                        are_shipped_ratings(text, descriptor.ratings_schema);
  return is_known ? frame_of(std::move(document)) : read_ratings(std::move(document), descriptor);
}

RatingsDocument read_ratings_frame(Document document) {
  refuse_if_any(document.file, ratings_schema().problems(document));
  return frame_of(std::move(document));
}

}  // namespace ohmwright
