#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <sys/types.h>

#include <ohmwright/plugin/stamp_check.hpp>

namespace ohmwright {

inline constexpr std::string_view kind_index_name = "kinds.index.json";

/// The names of kinds by the bytes of their files, made when the program is built (OhmwrightKindIndex.cmake), so that a
/// start need not read every kind file to know what they are called.
///
/// It cannot become stale: what stands in a file of just these bytes does not change. A file with others is read.
class KindIndex {
 public:
  KindIndex() = default;
  explicit KindIndex(std::map<std::string, StampedKind, std::less<>> by_digest) : by_digest_(std::move(by_digest)) {}

  bool empty() const { return by_digest_.empty(); }
  /// The kind in the file whose bytes have that digest (`blake2b_of`), or null for one that is not known.
  const StampedKind* kind_in(std::string_view digest) const;

 private:
  std::map<std::string, StampedKind, std::less<>> by_digest_;
};

/// The index in that folder, or an empty one where there is none, `user` cannot trust it, or it is damaged: then kind
/// files are read as if there had never been one.
KindIndex read_kind_index(const std::filesystem::path& folder, ::uid_t user);

}  // namespace ohmwright
