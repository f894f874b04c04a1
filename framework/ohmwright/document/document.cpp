#include <iterator>
#include <utility>

#include <nlohmann/json.hpp>

#include <ohmwright/document/byte_order_mark.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/document/syntax_trouble.hpp>
#include <ohmwright/document/tree_builder.hpp>
#include <ohmwright/document/wording.hpp>

namespace ohmwright {

namespace {

/// Walks over the text and keeps count of lines for whoever holds the same `Progress`.
class CountingIterator {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  CountingIterator(const char* place, Progress* progress) : place_(place), progress_(progress) {}

  reference operator*() const { return *place_; }
  CountingIterator& operator++() {
    progress_->last = *place_++;
    ++progress_->offset;
    if (progress_->last == '\n') ++progress_->line;
    return *this;
  }
  CountingIterator operator++(int) {
    const CountingIterator before = *this;
    ++*this;
    return before;
  }
  friend bool operator==(const CountingIterator& a, const CountingIterator& b) { return a.place_ == b.place_; }
  friend bool operator!=(const CountingIterator& a, const CountingIterator& b) { return !(a == b); }

 private:
  const char* place_;
  Progress* progress_;
};

/// The JSON library's events, handed on to the builder.
class Events {
 public:
  Events(std::string_view text, const Progress& progress, TreeBuilder& builder)
      : text_(text), progress_(progress), builder_(builder) {}

  bool null() { return builder_.value(std::monostate{}); }
  bool boolean(bool flag) { return builder_.value(flag); }
  bool number_integer(std::int64_t number) { return builder_.value(static_cast<double>(number)); }
  bool number_unsigned(std::uint64_t number) { return builder_.value(static_cast<double>(number)); }
  bool number_float(double number, const std::string& /*digits*/) { return builder_.value(number); }
  bool string(std::string& text) { return builder_.text(std::move(text)); }
  bool binary(nlohmann::json::binary_t& /*bytes*/) { return false; }
  bool start_object(std::size_t /*size*/) { return builder_.open(ValueNode::Members{}); }
  bool key(const std::string& name) { return builder_.key(name); }
  bool end_object() { return builder_.close(); }
  bool start_array(std::size_t /*size*/) { return builder_.open(ValueNode::Array{}); }
  bool end_array() { return builder_.close(); }
  bool parse_error(std::size_t /*place*/, const std::string& last_token, const nlohmann::json::exception& error) {
    return builder_.stop(describe_syntax_trouble(text_, progress_.offset, last_token, error.what()));
  }

 private:
  std::string_view text_;
  const Progress& progress_;
  TreeBuilder& builder_;
};

}  // namespace

Document parse_document_to_check(std::string_view text, std::string file, const DocumentLimits& limits) {
  if (text.size() > limits.bytes)
    throw DocumentError(std::move(file),
                        {Problem{"", 0, "is longer than a document may be, " + size_in_words(limits.bytes)}});
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  if (std::string foreign = describe_foreign_content(text); !foreign.empty())
    throw DocumentError(std::move(file), {Problem{"", 0, std::move(foreign)}});
  Progress progress;
  TreeBuilder builder(progress, limits);
  Events events(text, progress, builder);
  const char* begin = text.data();
  nlohmann::json::sax_parse(CountingIterator(begin, &progress), CountingIterator(begin + text.size(), &progress),
                            &events);
  std::vector<Problem> problems = builder.take_problems();
  if (!builder.tree_is_whole()) throw DocumentError(std::move(file), std::move(problems));
  return {std::move(file), builder.take_root(), std::move(problems)};
}

Document parse_document(std::string_view text, std::string file, const DocumentLimits& limits) {
  Document document = parse_document_to_check(text, std::move(file), limits);
  if (!document.problems.empty()) throw DocumentError(std::move(document.file), std::move(document.problems));
  return document;
}

Document read_document_to_check(const std::string& path, const DocumentLimits& limits) {
  return parse_document_to_check(read_source(path, limits.bytes), name_of_source(path), limits);
}

Document read_document(const std::string& path, const DocumentLimits& limits) {
  return parse_document(read_source(path, limits.bytes), name_of_source(path), limits);
}

}  // namespace ohmwright
