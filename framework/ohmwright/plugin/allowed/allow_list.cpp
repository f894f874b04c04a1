#include <algorithm>
#include <iterator>
#include <span>
#include <system_error>
#include <utility>

#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/plugin/allowed/allow_list.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/trust.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

constexpr std::uint64_t largest_allow_list = std::uint64_t{1} << 20U;

std::string whole_text(const TrustedFile& file) {
  if (file.size > largest_allow_list)
    throw InputError(file.path.string() + ": no list of allowed plugins is that large");
  std::string text(static_cast<std::size_t>(file.size), '\0');
  if (!FileBytes(file.descriptor.number(), file.size).read(0, std::as_writable_bytes(std::span(text))))
    throw InputError(file.path.string() + ": the file became shorter while it was read; try again");
  return text;
}

std::string text_of_trusted(const std::filesystem::path& file, ::uid_t user) {
  try {
    return whole_text(open_trusted(file, user));
  } catch (const PluginError& error) {  // it is no plugin
    throw InputError("the list of allowed plugins " + shell_word(file) + " is not used: " + error.reasons().front());
  }
}

}  // namespace

bool AllowList::permits(std::string_view sha256) const {
  return std::any_of(entries_.begin(), entries_.end(), [&](const auto& entry) { return entry.sha256 == sha256; });
}

void AllowList::allow(AllowedPlugin plugin) {
  std::erase_if(entries_, [&](const AllowedPlugin& entry) { return entry.sha256 == plugin.sha256; });
  entries_.push_back(std::move(plugin));
}

std::vector<AllowedPlugin> AllowList::revoke(std::string_view digest_name_or_kind) {
  std::vector<AllowedPlugin> taken;
  const auto is_meant = [&](const AllowedPlugin& entry) {
    return entry.sha256 == digest_name_or_kind || entry.name == digest_name_or_kind ||
           std::find(entry.kinds.begin(), entry.kinds.end(), digest_name_or_kind) != entry.kinds.end();
  };
  const auto first = std::stable_partition(entries_.begin(), entries_.end(),
                                           [&](const AllowedPlugin& entry) { return !is_meant(entry); });
  std::move(first, entries_.end(), std::back_inserter(taken));
  entries_.erase(first, entries_.end());
  return taken;
}

std::string AllowList::text() const {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const AllowedPlugin& entry : entries_)
    list.push_back({{"sha256", entry.sha256}, {"name", entry.name}, {"kinds", entry.kinds}});
  return nlohmann::ordered_json{{"allowed", list}}.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + '\n';
}

AllowList read_allow_list(const std::filesystem::path& file, ::uid_t user) {
  std::error_code error;
  if (file.empty() || !std::filesystem::exists(file, error)) return {};
  const Document document = parse_document_to_check(text_of_trusted(file, user), file.string());
  std::vector<Problem> problems = allowed_plugins_schema().problems(document);
  if (!problems.empty()) throw DocumentError(document.file, std::move(problems));
  AllowList list;
  for (const ValueNode& entry : list_of(document.root, "allowed")) {
    AllowedPlugin plugin{text_of(entry, "sha256"), text_of(entry, "name"), {}};
    for (const ValueNode& kind : list_of(entry, "kinds"))
      if (kind.text() != nullptr) plugin.kinds.push_back(*kind.text());
    list.allow(std::move(plugin));
  }
  return list;
}

}  // namespace ohmwright
