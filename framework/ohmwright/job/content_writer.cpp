#include <nlohmann/json.hpp>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::job {

namespace {

std::string quoted_json(std::string_view value) {
  if (value.size() > ContentWriter::longest_text)
    throw InputError("a text of " + std::to_string(value.size()) + " bytes is too long for the job book, which takes " +
                     std::to_string(ContentWriter::longest_text) + "; keep it in a file and note the file's name");
  if (value.find('\0') != std::string_view::npos)
    throw InputError("a text for the job book holds a NUL byte; leave it out");
  try {
    return nlohmann::json(value).dump();
  } catch (const nlohmann::json::exception&) {
    throw InputError("a text for the job book is no UTF-8; type it again, or convert it (iconv -t UTF-8)");
  }
}

}  // namespace

void ContentWriter::add(std::string_view name, const std::string& json) {
  content_ += content_.empty() ? "{" : ",";
  content_ += quoted_json(name) + ":" + json;
}

ContentWriter& ContentWriter::text(std::string_view name, std::string_view value) {
  if (!value.empty()) add(name, quoted_json(value));
  return *this;
}

ContentWriter& ContentWriter::texts(std::string_view name, std::span<const std::string> values) {
  if (values.empty()) return *this;
  std::string list;
  for (const std::string& value : values) list += (list.empty() ? "[" : ",") + quoted_json(value);
  add(name, list + "]");
  return *this;
}

ContentWriter& ContentWriter::number(std::string_view name, double value) {
  add(name, nlohmann::json(value).dump());
  return *this;
}

ContentWriter& ContentWriter::flag(std::string_view name, bool value) {
  if (value) add(name, "true");
  return *this;
}

ContentWriter& ContentWriter::json(std::string_view name, std::string_view json) {
  add(name, nlohmann::ordered_json::parse(json).dump());
  return *this;
}

ContentWriter& ContentWriter::objects(std::string_view name, std::span<const ContentWriter> values) {
  if (values.empty()) return *this;
  std::string list;
  for (const ContentWriter& value : values) list += (list.empty() ? "[" : ",") + value.content();
  add(name, list + "]");
  return *this;
}

}  // namespace ohmwright::job
