#include <utility>

#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

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

}  // namespace

Schema ratings_schema_of(const Descriptor& descriptor) {
  return {descriptor.ratings_schema, "the schema of the ratings of " + std::string(descriptor.id),
          ErrorCategory::plugin};
}

RatingsDocument read_ratings(Document document, const Descriptor& descriptor, const Schema& schema_of_kind) {
  std::vector<Problem> problems = ratings_schema().problems(document.root);
  check_kind(document.root, descriptor, problems);
  const ValueNode* ratings = document.root.find("ratings");
  if (ratings != nullptr && ratings->members() != nullptr)
    for (Problem& problem : schema_of_kind.problems(*ratings)) problems.push_back(std::move(problem));
  refuse_if_any(document.file, std::move(problems));
  return frame_of(std::move(document));
}

RatingsDocument read_ratings(Document document, const Descriptor& descriptor) {
  return read_ratings(std::move(document), descriptor, ratings_schema_of(descriptor));
}

RatingsDocument read_ratings_frame(Document document) {
  refuse_if_any(document.file, ratings_schema().problems(document.root));
  return frame_of(std::move(document));
}

}  // namespace ohmwright
