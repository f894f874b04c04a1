#pragma once

#include <memory>
#include <string>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/schema.hpp>

namespace ohmwright {

/// What a ratings file says (schemas/ratings.schema.json). Keeps the document that `ratings` points into.
struct RatingsDocument {
  std::string kind;
  std::string name;
  std::string title;
  std::string source;  ///< of every figure that names none of its own
  const ValueNode* ratings = nullptr;
  std::string file;
  std::shared_ptr<const Document> document;
  std::string control_file = {};  ///< where `with_control` took the control from; empty: none

  /// Refuses the problems that the kind found, each under the file it stands in. Throws DocumentError if there is one.
  void refuse_if_any(std::vector<Problem> problems) const;
};

/// The kind's own schema of its ratings, ready to check many. Throws Error (plugin) when the kind gives none or a wrong
/// one.
Schema ratings_schema_of(const Descriptor& descriptor);

/// Checks a ratings file: its frame against the shipped schema, its figures against that of the kind. Throws
/// DocumentError with all that is wrong. What no schema can say is checked by the kind, when it makes a part
/// (component/kind.hpp).
RatingsDocument read_ratings(Document document, const Descriptor& descriptor, const Schema& schema_of_kind);
/// The same, for one file.
RatingsDocument read_ratings(Document document, const Descriptor& descriptor);

/// The same of a file, or of standard input for "-": those that are shipped with the kind are known to be right and are
/// not held against the schemas again. Throws DocumentError as `read_document_to_check` does, too.
RatingsDocument read_ratings_file(const std::string& path, const Descriptor& descriptor);

/// The ratings with the control of another file (schemas/control.schema.json) in the place that the kind declares
/// (`Descriptor::control_member`), in place of one that stands there. Throws DocumentError with all that is wrong, and
/// InputError for a kind that has no control.
RatingsDocument with_control(const RatingsDocument& ratings, const Document& control, const Descriptor& descriptor);

/// Only the frame, for lists of what there is: the figures may be anything.
RatingsDocument read_ratings_frame(Document document);

}  // namespace ohmwright
