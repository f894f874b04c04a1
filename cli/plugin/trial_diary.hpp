#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/conformance/kit/kit.hpp>

namespace ohmwright::cli {

/// A check as the process that tried the kind told it.
struct TriedCheck {
  std::string id;
  std::string title;  ///< an English sentence, translated when printed
  std::vector<std::string> to_mend;
  std::string not_tried{};  ///< likewise; empty: it was
};

/// What the process that tries a kind tells of it, line by line into a pipe and past every buffer: whoever runs next
/// may end that process, and what was told before still counts.
class DiaryWriter {
 public:
  explicit DiaryWriter(int descriptor) : descriptor_(descriptor) {}

  void begins(const KitCheck& check) const;
  void ends(const KitCheck& check) const;
  void notes(std::string_view text) const;
  /// It came to its own end.
  void is_done() const;

 private:
  void write(char mark, std::string_view text) const;

  int descriptor_;
};

/// Who hears of a trial while it runs.
struct TrialListener {
  std::function<void(const TriedCheck&)> check;
  std::function<void(const std::string&)> note;
};

/// What came out of the pipe.
struct Diary {
  TriedCheck begun;      ///< the check that was begun last
  bool is_open = false;  ///< and did not end
  bool is_done = false;  ///< the process came to its own end
};

/// The check that stands for a process which did not come to its own end, and how it ended: the one that was begun and
/// did not end, else one of the process itself, since none of the kind's checks was going on.
TriedCheck check_that_was_ended(const Diary& diary, const std::string& how);

/// Reads a diary until its pipe is closed, and hands on what it tells. A plugin can write into it, too: what is no line
/// of a diary is passed over, and past eight megabytes nothing more is read.
Diary read_diary(int descriptor, const TrialListener& listener);

}  // namespace ohmwright::cli
