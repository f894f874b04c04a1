#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>

namespace ohmwright {

/// How much a document may hold. Whoever writes by hand meets none of these; they keep a hostile file from taking the
/// machine's memory or the stack of the pattern matcher.
struct DocumentLimits {
  std::size_t bytes = std::size_t{16} << 20U;
  std::size_t depth = 64;        ///< arrays and objects inside each other
  std::size_t values = 200'000;  ///< values in all
  /// In one text. The patterns of schemas are matched by std::regex, which takes a stack frame or several for each
  /// character: measured, it ends the process from 7,000 to 32,000 characters on, under a sanitizer from 1,500.
  std::size_t text_bytes = 1024;
  std::size_t name_bytes = 256;     ///< in the name of a field
  bool control_characters = false;  ///< whether text may hold more of them than tab and newline
};

/// A JSON document, read whole; every node of its tree knows its pointer and its line.
struct Document {
  std::string file;  ///< how messages call it
  ValueNode root;
  /// What was found wrong when it was read and leaves the tree whole; only in a document that is still to be checked.
  std::vector<Problem> problems{};
};

/// Reads a JSON file, or standard input for "-". A byte order mark is skipped. Throws DocumentError, which tells all
/// that is wrong with its place: what `read_source` refuses, text that is not JSON, a name that stands twice in one
/// object, a document past `limits`.
Document read_document(const std::string& path, const DocumentLimits& limits = {});

/// The same for text at hand; `file` is how messages call it ("--ratings").
Document parse_document(std::string_view text, std::string file, const DocumentLimits& limits = {});

/// The same for whoever checks the document next and then tells all that is wrong with it in one go
/// (`Schema::problems`): a name that stands twice and control characters in a text are noted in `Document::problems`,
/// not thrown. Of a name that stands twice the tree holds the first value, the one that the message sends the reader
/// back to.
Document read_document_to_check(const std::string& path, const DocumentLimits& limits = {});
Document parse_document_to_check(std::string_view text, std::string file, const DocumentLimits& limits = {});

/// A step of a JSON pointer as RFC 6901 writes it: "a/b" becomes "a~1b".
std::string pointer_step(std::string_view name);

}  // namespace ohmwright
