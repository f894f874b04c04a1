#pragma once

#include <string>

namespace ohmwright::cli {

/// A record on the disk, open and locked: whoever else works on it waits until this goes. Lines are appended and
/// nothing that stands in the file is ever written again.
class LockedRecord {
 public:
  /// Opens it, makes an empty one where there is none, and waits for its turn. Throws InputError naming file and
  /// reason.
  explicit LockedRecord(std::string path);
  LockedRecord(const LockedRecord&) = delete;
  LockedRecord& operator=(const LockedRecord&) = delete;
  ~LockedRecord();

  /// All from that byte on. The beginning of an entry that a crash left behind is cut off. Throws InputError
  /// where the file is shorter than that: somebody changed it.
  std::string text_from(std::size_t byte);
  /// Appends a line and sees to it that it is on the disk. Throws InputError.
  void append(const std::string& line);

 private:
  [[noreturn]] void refuse(const std::string& what) const;

  std::string path_;
  int descriptor_ = -1;
};

}  // namespace ohmwright::cli
