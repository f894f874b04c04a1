// Reads any bytes as a ratings file, a meter and a vectors file. What is accepted is a tree whose nodes know their
// place; what is refused is a DocumentError that a terminal takes as text. Nothing else may happen.
#include <cstdint>

#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/vectors_document.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;

/// Follows a JSON pointer, steps unescaped.
const ValueNode* follow(const ValueNode& root, std::string_view pointer) {
  const ValueNode* node = &root;
  while (!pointer.empty()) {
    const std::size_t end = std::min(pointer.find('/', 1), pointer.size());
    const std::string_view step = pointer.substr(1, end - 1);
    pointer.remove_prefix(end);
    const ValueNode* next = nullptr;
    if (const ValueNode::Array* list = node->array())
      next = &list->at(std::stoul(std::string(step)));
    else if (const ValueNode::Members* members = node->members())
      for (const auto& [name, member] : *members)
        if (pointer_step(name) == step) next = &member;
    fuzz::require(next != nullptr);
    node = next;
  }
  return node;
}

void require_places(const ValueNode& root, const ValueNode& node, int first_line) {
  fuzz::require(node.line() >= first_line);
  fuzz::require(follow(root, node.pointer()) == &node);
  if (node.array() != nullptr)
    for (const ValueNode& item : *node.array()) require_places(root, item, node.line());
  if (node.members() != nullptr)
    for (const auto& [name, member] : *node.members()) require_places(root, member, node.line());
}

template <class Read>
void try_to(Read read) {
  try {
    read();
  } catch (const DocumentError& refusal) {
    fuzz::require_printable(refusal.what());
    fuzz::require(!refusal.problems().empty());
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > 4000) return 0;  // places are checked by following each pointer: quadratic
  static const Schema schema = ratings_schema_of(fuzz::kind());
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try_to([text] {
    const Document document = parse_document(text, "file");
    require_places(document.root, document.root, 1);
    try_to([&document] { read_ratings(document, fuzz::kind(), schema); });
    try_to([&document] { read_meter(document); });
    try_to([&document] { read_vectors(document, fuzz::kind()); });
  });
  return 0;
}
