#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/batch/batch_input.hpp>
#include <ohmwright/batch/used_files.hpp>

namespace ohmwright::batch {

/// What a run is made from, wherever its parts run: parts of one run have it in common.
struct RunIdentity {
  std::string program;               ///< and its version
  std::vector<std::string> options;  ///< that say how lines are judged
  std::string input;                 ///< how many files of how many bytes, and a digest of their names and sizes

  friend bool operator==(const RunIdentity&, const RunIdentity&) = default;
};

/// "2 files of 1234 bytes, sha256 …"
std::string identity_of(const std::vector<InputFile>& files);

/// Shards from the first to the last, both counted from 1.
using ShardRange = std::pair<std::uint64_t, std::uint64_t>;

/// Which part of which run a summary is of.
struct RunPart {
  RunIdentity run;
  UsedFileMap files;  ///< that its records depend on; the paths are not part of it
  std::uint64_t shards = 1;
  std::vector<ShardRange> have;  ///< in order, apart from each other

  bool is_whole() const { return have.size() == 1 && have[0] == ShardRange{1, shards}; }
  /// Those that are not there: "2, 5 to 7".
  std::string missing() const;
  /// Adds a part of the same run, associative and commutative. Throws InputError for a part of another run, for a shard
  /// that both have, and for files of which each opened another content.
  void add(const RunPart& other);
};

}  // namespace ohmwright::batch
