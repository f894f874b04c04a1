#include <nlohmann/json.hpp>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::job {

namespace {

using ContentJson = nlohmann::ordered_json;

/// A text that a book can keep.
ContentJson kept_text(std::string_view value) {
  if (value.size() > ContentWriter::longest_text)
    throw InputError("a text of " + std::to_string(value.size()) + " bytes is too long for the job book, which takes " +
                     std::to_string(ContentWriter::longest_text) + "; keep it in a file and note the file's name");
  refuse_what_no_book_keeps(value, "a text for the job book", ContentWriter::longest_text);
  return value;
}

ContentJson kept_texts(std::span<const std::string> values) {
  ContentJson list = ContentJson::array();
  for (const std::string& value : values) list.push_back(kept_text(value));
  return list;
}

}  // namespace

void refuse_what_no_book_keeps(std::string_view text, const std::string& what, std::size_t longest) {
  if (text.size() > longest)
    throw InputError(what + " of " + std::to_string(text.size()) + " bytes is too long for the job book, which takes " +
                     std::to_string(longest) + "; shorten it");
  if (text.find('\0') != std::string_view::npos) throw InputError(what + " holds a NUL byte; leave it out");
  try {
    (void)ContentJson(text).dump();
  } catch (const nlohmann::json::exception&) {
    throw InputError(what + " is no UTF-8; type it again, or convert it (iconv -t UTF-8)");
  }
}

ContentWriter::ContentWriter() : object_(std::make_unique<ContentJson>(ContentJson::object())) {}
ContentWriter::~ContentWriter() = default;
ContentWriter::ContentWriter(const ContentWriter& other) : object_(std::make_unique<ContentJson>(*other.object_)) {}
ContentWriter::ContentWriter(ContentWriter&& other) noexcept = default;
ContentWriter& ContentWriter::operator=(const ContentWriter& other) {
  *object_ = *other.object_;
  return *this;
}
ContentWriter& ContentWriter::operator=(ContentWriter&& other) noexcept = default;

ContentWriter& ContentWriter::text(std::string_view name, std::string_view value) {
  if (!value.empty()) (*object_)[std::string(name)] = kept_text(value);
  return *this;
}

ContentWriter& ContentWriter::texts(std::string_view name, std::span<const std::string> values) {
  if (!values.empty()) (*object_)[std::string(name)] = kept_texts(values);
  return *this;
}

ContentWriter& ContentWriter::rows(std::string_view name, std::span<const std::vector<std::string>> rows) {
  ContentJson table = ContentJson::array();
  for (const std::vector<std::string>& row : rows)
    if (!row.empty()) table.push_back(kept_texts(row));
  (*object_)[std::string(name)] = std::move(table);
  return *this;
}

ContentWriter& ContentWriter::number(std::string_view name, double value) {
  (*object_)[std::string(name)] = value;
  return *this;
}

ContentWriter& ContentWriter::flag(std::string_view name, bool value) {
  if (value) (*object_)[std::string(name)] = true;
  return *this;
}

ContentWriter& ContentWriter::json(std::string_view name, std::string_view json) {
  (*object_)[std::string(name)] = ContentJson::parse(json);
  return *this;
}

ContentWriter& ContentWriter::objects(std::string_view name, std::span<const ContentWriter> values) {
  if (values.empty()) return *this;
  ContentJson list = ContentJson::array();
  for (const ContentWriter& value : values) list.push_back(*value.object_);
  (*object_)[std::string(name)] = std::move(list);
  return *this;
}

std::string ContentWriter::content() const { return object_->dump(); }

}  // namespace ohmwright::job
