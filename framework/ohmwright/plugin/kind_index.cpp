#include <span>
#include <system_error>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/plugin/kind_index.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/trust.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright {

namespace {

constexpr DocumentLimits index_limits{.bytes = std::size_t{1} << 20U, .depth = 8, .values = 20'000};

/// Of each entry what has the right type; a library's has no digest, which is met by no file.
KindIndex index_in(const ValueNode& root) {
  KindIndex::ByDigest by_digest;
  KindIndex::ByName by_name;
  for (const ValueNode& entry : list_of(root, "kinds")) {
    StampedKind kind{text_of(entry, "kind"), {}};
    for (const ValueNode& alias : list_of(entry, "aliases"))
      if (alias.text() != nullptr) kind.aliases.push_back(*alias.text());
    if (!is_kind_id(kind.id)) continue;
    by_name.try_emplace(spoken_name(kind.id), kind.id);
    for (const std::string& alias : kind.aliases) by_name.try_emplace(spoken_name(alias), kind.id);
    by_digest.try_emplace(text_of(entry, "blake2b"), std::move(kind));
  }
  return {std::move(by_digest), std::move(by_name)};
}

}  // namespace

const StampedKind* KindIndex::kind_in(std::string_view digest) const {
  const auto found = by_digest_.find(digest);
  return found == by_digest_.end() ? nullptr : &found->second;
}

KindIndex read_kind_index(const std::filesystem::path& folder, ::uid_t user) {
  const std::filesystem::path path = folder / kind_index_name;
  std::error_code error;
  if (!std::filesystem::exists(path, error)) return {};
  try {
    const TrustedFile file = open_trusted(path, user);
    if (file.size > index_limits.bytes) return {};
    std::string text(static_cast<std::size_t>(file.size), '\0');
    if (!FileBytes(file.descriptor.number(), file.size).read(0, std::as_writable_bytes(std::span(text)))) return {};
    return index_in(parse_document(text, path.string(), index_limits).root);
  } catch (const PluginError&) {  // not to be trusted
    return {};
  } catch (const InputError&) {  // damaged
    return {};
  }
}

}  // namespace ohmwright
