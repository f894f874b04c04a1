#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>

namespace ohmwright::batch {

/// A file that records depend on.
struct UsedFile {
  std::string path;    ///< where it was read
  std::string sha256;  ///< of its bytes, 64 hexadecimal digits

  friend bool operator==(const UsedFile&, const UsedFile&) = default;
};

/// By what it is to the records: "kind thermistor", "ratings thermistor/ntc-10k-b3977", "meter basic".
using UsedFileMap = std::map<std::string, UsedFile, std::less<>>;

/// SHA-256 of a file's bytes; nothing where it cannot be read.
std::optional<std::string> sha256_of_file(const std::string& path);

/// The files that a run has opened, noted as they are, with what they held. Safe to use from several threads.
class UsedFiles {
 public:
  void note(const std::string& what, const std::string& path);
  /// Takes up what an earlier part of the run had opened, and looks whether it is still the same.
  void take_up(const UsedFileMap& earlier);
  UsedFileMap all() const;
  /// Throws InputError where one name stood for two contents in one run: half of its records would be by one and half
  /// by the other.
  void refuse_changed() const;

 private:
  void add(const std::string& what, const UsedFile& file);

  mutable std::mutex mutex_;
  UsedFileMap files_;
  std::string changed_;  ///< of the first that changed, what it is
};

}  // namespace ohmwright::batch
