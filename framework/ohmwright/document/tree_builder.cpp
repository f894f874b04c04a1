#include <algorithm>

#include <fmt/core.h>

#include <ohmwright/document/tree_builder.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

// Each node keeps its pointer. Long names around many values would multiply: 128 MiB of pointers is more than any
// document in use needs by three orders of magnitude.
constexpr std::size_t most_pointer_bytes = std::size_t{128} << 20U;

bool is_refused_control_character(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7F;
}

bool holds_control_characters(std::string_view text) {
  return std::any_of(text.begin(), text.end(), is_refused_control_character);
}

/// Whether a message would show the name as it is, quotes and backslashes apart.
bool can_be_shown(std::string name) {
  name.erase(std::remove_if(name.begin(), name.end(), [](char c) { return c == '"' || c == '\\'; }), name.end());
  return ohmwright::quoted(name, name.size() + 1) == '"' + name + '"';
}

}  // namespace

std::string pointer_step(std::string_view name) {
  std::string step;
  for (const char c : name) {
    if (c == '~')
      step += "~0";
    else if (c == '/')
      step += "~1";
    else
      step += c;
  }
  return step;
}

std::string TreeBuilder::pointer_of_next() const {
  if (open_.empty()) return {};
  const Open& parent = open_.back();
  if (const auto* array = std::get_if<ValueNode::Array>(&parent.value))
    return parent.pointer + '/' + std::to_string(array->size());
  return parent.pointer + '/' + pointer_step(parent.key);
}

bool TreeBuilder::stop(std::string why) {
  problems_.push_back({open_.empty() ? std::string() : open_.back().pointer, progress_.line_of_last(), std::move(why)});
  stopped_ = true;
  return false;
}

bool TreeBuilder::report(Problem problem) {
  if (problems_.size() >= most_problems) return stop("and more of the same");
  problems_.push_back(std::move(problem));
  return true;
}

bool TreeBuilder::within_limits(const std::string& pointer) {
  pointer_bytes_ += pointer.size();
  if (++values_ > limits_.values) return stop(fmt::format("more than {} values in one document", limits_.values));
  if (pointer_bytes_ > most_pointer_bytes) return stop("too many long field names around too many values");
  return true;
}

void TreeBuilder::add(ValueNode node) {
  if (open_.empty()) {
    root_ = std::move(node);
    return;
  }
  Open& parent = open_.back();
  if (auto* array = std::get_if<ValueNode::Array>(&parent.value))
    array->push_back(std::move(node));
  else if (!parent.key_is_repeated)
    std::get<ValueNode::Members>(parent.value).emplace_back(std::move(parent.key), std::move(node));
}

bool TreeBuilder::value(ValueNode::Value value) {
  std::string pointer = pointer_of_next();
  if (!within_limits(pointer)) return false;
  add(ValueNode(std::move(value), std::move(pointer), progress_.line_of_last()));
  return true;
}

bool TreeBuilder::text(std::string text) {
  if (text.size() > limits_.text_bytes)
    return stop(fmt::format("a text of {}; at most {} bytes are read", size_in_words(text.size()), limits_.text_bytes));
  if (!limits_.control_characters && holds_control_characters(text))
    if (!report(
            {pointer_of_next(), progress_.line_of_last(), "control characters in the text " + ohmwright::quoted(text)}))
      return false;
  return value(std::move(text));
}

bool TreeBuilder::key(const std::string& name) {
  if (name.size() > limits_.name_bytes)
    return stop(
        fmt::format("a field name of {}; at most {} bytes are read", size_in_words(name.size()), limits_.name_bytes));
  // A name becomes part of pointers, which go to the terminal.
  if (!can_be_shown(name)) return stop("control or invisible characters in the field name " + ohmwright::quoted(name));
  Open& object = open_.back();
  const auto [first, is_new] = object.lines_of_names.emplace(name, progress_.line_of_last());
  if (!is_new && !report({object.pointer + '/' + pointer_step(name), progress_.line_of_last(),
                          fmt::format("the field {} stands twice, first on line {}; keep one", ohmwright::quoted(name),
                                      first->second)}))
    return false;
  object.key = name;
  object.key_is_repeated = !is_new;
  return true;
}

bool TreeBuilder::open(ValueNode::Value empty) {
  std::string pointer = pointer_of_next();
  if (!within_limits(pointer)) return false;
  if (open_.size() >= limits_.depth)
    return stop(fmt::format("more than {} arrays and objects inside each other", limits_.depth));
  Open next;
  next.value = std::move(empty);
  next.pointer = std::move(pointer);
  next.line = progress_.line_of_last();
  open_.push_back(std::move(next));
  return true;
}

bool TreeBuilder::close() {
  Open done = std::move(open_.back());
  open_.pop_back();
  add(ValueNode(std::move(done.value), std::move(done.pointer), done.line));
  return true;
}

}  // namespace ohmwright
