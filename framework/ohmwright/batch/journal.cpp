#include <filesystem>
#include <limits>
#include <variant>

#include <nlohmann/json.hpp>

#include <ohmwright/batch/journal.hpp>
#include <ohmwright/batch/summary_document.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::batch {

namespace {

std::uint64_t whole_number(const Document& document, const ValueNode& node, std::string_view field) {
  const std::optional<double> number = number_of(node, field);
  if (!number || !(*number >= 0.0)) throw DocumentError(document.file, {node.problem("is no journal of a batch")});
  return static_cast<std::uint64_t>(*number);
}

UsedFileMap files_in(const Document& document) {
  UsedFileMap files;
  const ValueNode* node = document.root.find("files");
  const auto* members = node == nullptr ? nullptr : std::get_if<ValueNode::Members>(&node->value());
  if (members == nullptr) return files;
  for (const auto& [what, file] : *members) files[what] = {text_of(file, "path"), text_of(file, "sha256")};
  return files;
}

Journal journal_in(const Document& document) {
  Journal journal;
  for (const ValueNode& node : list_of(document.root, "made_from"))
    if (const std::string* text = node.text()) journal.made_from.push_back(*text);
  const ValueNode* finished = document.root.find("finished");
  const ValueNode* summary = document.root.find("summary");
  const ValueNode& position = finished == nullptr ? document.root : *finished;
  journal.files = files_in(document);
  journal.is_complete = flag_of(document.root, "is_complete");
  journal.finished = {static_cast<std::size_t>(whole_number(document, position, "file")),
                      whole_number(document, position, "byte"), whole_number(document, position, "lines")};
  journal.output_bytes = whole_number(document, document.root, "output_bytes");
  if (summary == nullptr) whole_number(document, document.root, "summary");
  journal.summary = summary_of(*summary, document.file);
  return journal;
}

}  // namespace

std::size_t write_journal(const std::string& path, const Journal& journal) {
  nlohmann::ordered_json files = nlohmann::ordered_json::object();
  for (const auto& [what, file] : journal.files) files[what] = {{"path", file.path}, {"sha256", file.sha256}};
  nlohmann::ordered_json json{
      {"made_from", journal.made_from},
      {"files", std::move(files)},
      {"is_complete", journal.is_complete},
      {"finished",
       {{"file", journal.finished.file}, {"byte", journal.finished.byte}, {"lines", journal.finished.lines}}},
      {"output_bytes", journal.output_bytes},
      {"summary", nlohmann::ordered_json::parse(summary_json(journal.summary))}};
  const std::string bytes = json.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
  write_file_atomically(path, bytes);
  return bytes.size();
}

std::optional<Journal> read_journal(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::exists(path, error)) return std::nullopt;
  DocumentLimits limits;
  limits.bytes = std::size_t{1} << 30U;
  limits.values = std::numeric_limits<std::size_t>::max();
  limits.text_bytes = std::size_t{64} << 10U;
  try {
    return journal_in(read_document(path, limits));
  } catch (const DocumentError& damage) {
    throw InputError(ohmwright::quoted(path) + " cannot be gone on from (" + damage.problems().front().text +
                     "); remove it to begin anew");
  }
}

}  // namespace ohmwright::batch
