#include <ohmwright/verdict/refused_work.hpp>

#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

namespace {

void check_name(const ValueNode* node, Notes& notes) {
  if (node == nullptr || node->text() == nullptr) return;
  const std::string_view reason = refused_work(*node->text());
  if (!reason.empty()) notes.say(*node, ohmwright::quoted(*node->text()) + ": " + std::string(reason));
}

}  // namespace

void check_refused_names(const ValueNode& document, Notes& notes) {
  for (const char* field : {"kind", "title"}) check_name(document.find(field), notes);
  for (const char* field : {"aliases", "roles", "terminals"})
    for (const ValueNode& name : list_in(document, field)) check_name(&name, notes);
  for (const char* list : {"measurands", "procedures"})
    for (const ValueNode& row : list_in(document, list))
      for (const char* field : {"id", "title"}) check_name(row.find(field), notes);
}

}  // namespace ohmwright::kind_file
