#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <sys/types.h>
#include <utility>

#include <ohmwright/plugin/stamp_check.hpp>

namespace ohmwright {

inline constexpr std::string_view kind_index_name = "kinds.index.json";

/// What the kinds of the installation are called, made when the program is built (OhmwrightKindIndex.cmake), so that a
/// start need not read every plugin and kind file to know it.
///
/// By the bytes of a kind file it cannot become stale: what stands in a file of just these bytes does not change. A
/// file with others is read. By a name it only tells where to look first.
class KindIndex {
 public:
  using ByDigest = std::map<std::string, StampedKind, std::less<>>;
  using ByName = std::map<std::string, std::string, std::less<>>;  ///< ids by `spoken_name` of id and aliases

  KindIndex() = default;
  KindIndex(ByDigest by_digest, ByName by_name) : by_digest_(std::move(by_digest)), by_name_(std::move(by_name)) {}

  bool empty() const { return by_digest_.empty(); }
  /// The kind in the file whose bytes have that digest (`blake2b_of`), or null for one that is not known.
  const StampedKind* kind_in(std::string_view digest) const;
  /// The id of the kind that was called so (`spoken_name`) when the index was made, or null: look whether it still is.
  const std::string* id_of(std::string_view spoken) const {
    const auto found = by_name_.find(spoken);
    return found == by_name_.end() ? nullptr : &found->second;
  }

 private:
  ByDigest by_digest_;
  ByName by_name_;
};

/// The index in that folder, or an empty one where there is none, `user` cannot trust it, or it is damaged: then kind
/// files are read as if there had never been one.
KindIndex read_kind_index(const std::filesystem::path& folder, ::uid_t user);

}  // namespace ohmwright
