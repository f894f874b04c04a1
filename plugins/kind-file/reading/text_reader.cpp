#include "reading/text_reader.hpp"

#include <algorithm>
#include <optional>

namespace ohmwright::kind_file {

namespace {

using Fields = boost::container::static_vector<Field, field_count>;

std::optional<Field> field_named(std::string_view name) {
  for (std::size_t i = 0; i < field_count; ++i)
    if (name_of(static_cast<Field>(i)) == name) return static_cast<Field>(i);
  return std::nullopt;
}

std::string in_words(FieldSet available) {
  std::string words;
  for (std::size_t i = 0; i < field_count; ++i) {
    const auto field = static_cast<Field>(i);
    if (holds(available, field)) words += (words.empty() ? "" : ", ") + ("{" + std::string(name_of(field)) + "}");
  }
  return words.empty() ? "it takes none" : "it may say " + words;
}

/// Hands each name between single braces to `take`; false where braces are neither a pair nor doubled.
template <class Take>
bool each_field(std::string_view text, Take take) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] != '{' && text[at] != '}') continue;
    if (at + 1 < text.size() && text[at + 1] == text[at]) {
      ++at;
      continue;
    }
    const std::size_t close = text.find('}', at);
    if (text[at] == '}' || close == std::string_view::npos) return false;
    take(text.substr(at + 1, close - at - 1));
    at = close;
  }
  return true;
}

/// The fields of a sentence of ours that can be filled; ours hold no others.
Fields fields_of_ours(std::string_view english) {
  Fields fields;
  each_field(english, [&fields](std::string_view name) {
    if (const auto field = field_named(name); field && std::find(fields.begin(), fields.end(), *field) == fields.end())
      fields.push_back(*field);
  });
  return fields;
}

void check_names(const ValueNode& texts, std::span<const TextRow> rows, std::span<const TextUse> uses, Notes& notes) {
  if (texts.members() == nullptr) return;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (uses[i].sayable) known.emplace_back(rows[i].id);
  for (const auto& [name, node] : *texts.members()) {
    if (std::find(known.begin(), known.end(), name) == known.end())
      notes.say(node, "this rule never says " + ohmwright::quoted(name) + suggestion(name, known));
  }
}

}  // namespace

Fields fields_in(const ValueNode& text, FieldSet available, Notes& notes) {
  Fields fields;
  const bool paired = each_field(*text.text(), [&](std::string_view name) {
    const std::optional<Field> field = field_named(name);
    if (!field || !holds(available, *field)) {
      notes.say(text, "the sentence has a field " + ohmwright::quoted("{" + std::string(name) + "}") +
                          " that cannot be filled; " + in_words(available));
    } else if (std::find(fields.begin(), fields.end(), *field) == fields.end()) {
      fields.push_back(*field);
    }
  });
  if (!paired) notes.say(text, "the sentence has braces that are no field; write {name}, or {{ and }} for braces");
  return fields;
}

void read_texts(std::span<const TextRow> rows, std::span<const TextUse> stated_uses, RuleForm& form,
                RuleDescriptor& descriptor, Notes& notes) {
  const ValueNode* written = form.place->find("texts");
  if (written == nullptr) return;
  constexpr FieldSet every_field = ~FieldSet{0};
  const std::vector<TextUse> any(rows.size(), TextUse{true, every_field});
  const std::span<const TextUse> uses = form.whole ? stated_uses : std::span<const TextUse>(any);
  check_names(*written, rows, uses, notes);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!uses[i].sayable) continue;
    SayableText& sayable = form.texts.sayable[i];
    std::string_view english = rows[i].english;
    if (const ValueNode* own = written->find(rows[i].id); own != nullptr && own->text() != nullptr) {
      english = *own->text();
      sayable.fields = fields_in(*own, uses[i].fields & rows[i].fields, notes);
    } else if (!rows[i].meaning.empty() && form.whole) {
      notes.say(*written, "the text " + ohmwright::quoted(rows[i].id) + " is missing: " + std::string(rows[i].meaning));
    } else {
      sayable.fields = fields_of_ours(english);
    }
    sayable.index = static_cast<TextIndex>(descriptor.texts.size());
    descriptor.texts.push_back({rows[i].id, english});
    form.texts.said_by_index.push_back(static_cast<std::uint8_t>(i));
  }
}

}  // namespace ohmwright::kind_file
