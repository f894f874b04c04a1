#include <algorithm>
#include <array>
#include <string_view>

#include <ohmwright/verdict/refused_work.hpp>

#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

namespace {

void check_name(const ValueNode* node, Notes& notes) {
  if (node == nullptr || node->text() == nullptr) return;
  const std::string_view reason = refused_work(*node->text());
  if (!reason.empty()) notes.say(*node, ohmwright::quoted(*node->text()) + ": " + std::string(reason));
}

/// What says nothing of work: cautions warn of it, sources cite, the others name what lies elsewhere.
constexpr std::array<std::string_view, 6> silent_of_work{"cautions", "source",         "weight_source",
                                                         "symptoms", "looks_upstream", "$schema"};

/// Every text that people get to read, wherever it stands: steps, titles, what rules say, advice.
void check_texts_of_work(const ValueNode& node, Notes& notes) {
  if (node.text() != nullptr) {
    const std::string_view reason = refused_work_in_text(*node.text());
    if (!reason.empty())
      notes.say(node, ohmwright::quoted(*node.text()) + ": " + std::string(reason) +
                          "; where it only warns, say it in a caution");
  }
  if (node.array() != nullptr)
    for (const ValueNode& entry : *node.array()) check_texts_of_work(entry, notes);
  if (node.members() != nullptr)
    for (const auto& [name, value] : *node.members())
      if (std::find(silent_of_work.begin(), silent_of_work.end(), name) == silent_of_work.end())
        check_texts_of_work(value, notes);
}

}  // namespace

void check_refused_names(const ValueNode& document, Notes& notes) {
  const std::size_t before = notes.count();
  for (const char* field : {"kind", "title"}) check_name(document.find(field), notes);
  for (const char* field : {"aliases", "roles", "terminals"})
    for (const ValueNode& name : list_in(document, field)) check_name(&name, notes);
  for (const char* list : {"measurands", "procedures"})
    for (const ValueNode& row : list_in(document, list))
      for (const char* field : {"id", "title"}) check_name(row.find(field), notes);
  if (notes.count() == before) check_texts_of_work(document, notes);  // else the same names would be told twice
}

}  // namespace ohmwright::kind_file
