#include "plugin/trial_diary.hpp"

#include <array>
#include <cerrno>
#include <unistd.h>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/quantity/message.hpp>

#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::size_t most_bytes = std::size_t{8} << 20U;

// What a line begins with.
constexpr char begins_mark = 'b';  ///< then id, tab, title
constexpr char mend_mark = 'm';
constexpr char untried_mark = 'u';
constexpr char ends_mark = 'e';
constexpr char note_mark = 'n';
constexpr char done_mark = 'z';

/// Puts the lines together as they come.
class DiaryReader {
 public:
  explicit DiaryReader(const TrialListener& listener) : listener_(listener) {}

  void take(std::string_view bytes) {
    for (const char byte : bytes) {
      if (byte != '\n') {
        line_ += byte;
        continue;
      }
      read_line();
      line_.clear();
    }
  }
  const Diary& diary() const { return diary_; }

 private:
  void read_line() {
    if (line_.empty()) return;
    const std::string text = line_.substr(1);
    switch (line_.front()) {
      case begins_mark: {
        const std::size_t tab = text.find('\t');
        if (tab == std::string::npos) return;
        diary_.begun = {text.substr(0, tab), text.substr(tab + 1), {}};
        diary_.is_open = true;
        return;
      }
      case mend_mark:
        diary_.begun.to_mend.push_back(text);
        return;
      case untried_mark:
        diary_.begun.not_tried = text;
        return;
      case ends_mark:
        if (diary_.is_open) listener_.check(diary_.begun);
        diary_.is_open = false;
        return;
      case note_mark:
        listener_.note(text);
        return;
      case done_mark:
        diary_.is_done = true;
        return;
      default:
        return;
    }
  }

  const TrialListener& listener_;
  std::string line_;
  Diary diary_;
};

}  // namespace

void DiaryWriter::write(char mark, std::string_view text) const {
  std::string line = mark + std::string(text) + '\n';
  std::string_view rest = line;
  while (!rest.empty()) {
    const ::ssize_t count = ::write(descriptor_, rest.data(), rest.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) ::_exit(exit_internal);  // nobody listens any more
    rest.remove_prefix(static_cast<std::size_t>(count));
  }
}

void DiaryWriter::begins(const KitCheck& check) const {
  write(begins_mark, std::string(check.id) + '\t' + std::string(check.title));
}

void DiaryWriter::ends(const KitCheck& check) const {
  for (const std::string& mend : check.to_mend) write(mend_mark, one_line(mend));
  if (!check.not_tried.empty()) write(untried_mark, one_line(check.not_tried));
  write(ends_mark, {});
}

void DiaryWriter::notes(std::string_view text) const { write(note_mark, one_line(text)); }

void DiaryWriter::is_done() const { write(done_mark, {}); }

TriedCheck check_that_was_ended(const Diary& diary, const std::string& how) {
  if (diary.is_open) {
    TriedCheck check = diary.begun;
    check.to_mend.push_back(how);
    return check;
  }
  const std::string when =
      diary.begun.id.empty() ? "before the first check" : "between two checks, after \"" + diary.begun.id + "\"";
  return {"process",
          OHMWRIGHT_TEXT("its process comes to its own end"),
          {when + ": " + how + "; something of it runs on by itself (a thread, a timer, a signal)"}};
}

Diary read_diary(int descriptor, const TrialListener& listener) {
  DiaryReader reader(listener);
  std::array<char, 4096> buffer{};
  std::size_t bytes = 0;
  while (bytes < most_bytes) {
    const ::ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) break;
    bytes += static_cast<std::size_t>(count);
    reader.take({buffer.data(), static_cast<std::size_t>(count)});
  }
  return reader.diary();
}

}  // namespace ohmwright::cli
