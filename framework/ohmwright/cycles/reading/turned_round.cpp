#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

#include <ohmwright/cycles/reading/turned_round.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cycles {

namespace {

/// A text whose lines, all of them ended, come from the last to the first behind a head that comes as it stands.
class TurnedText : public ByteSource {
 public:
  TurnedText(std::string text, std::size_t head_bytes, std::optional<std::string_view> ended_early)
      : text_(std::move(text)),
        head_bytes_(head_bytes),
        left_(text_.size()),
        piece_(std::string_view(text_).substr(0, head_bytes)),
        ended_early_(ended_early) {}

  std::size_t read(std::span<char> room) override {
    if (piece_.empty() && left_ > head_bytes_) {
      const std::size_t newline = left_ < 2 ? std::string::npos : text_.rfind('\n', left_ - 2);
      const std::size_t begin = newline == std::string::npos ? head_bytes_ : std::max(newline + 1, head_bytes_);
      piece_ = std::string_view(text_).substr(begin, left_ - begin);
      left_ = begin;
    }
    const std::size_t taken = std::min(piece_.size(), room.size());
    std::copy_n(piece_.begin(), taken, room.begin());
    piece_.remove_prefix(taken);
    return taken;
  }

  std::optional<std::string_view> ended_early() const override { return ended_early_; }

 private:
  std::string text_;
  std::size_t head_bytes_;
  std::size_t left_;  ///< bytes before it are still to come, but for the head
  std::string_view piece_;
  std::optional<std::string_view> ended_early_;
};

}  // namespace

TurnedRound turned_round(LineBuffer& lines, std::size_t lines_before) {
  TurnedRound turned;
  std::string text;
  std::size_t head_bytes = 0;
  const char* begin = nullptr;
  const char* end = nullptr;
  while (lines.next(begin, end)) {
    for (++turned.lines; turned.lines < lines.line(); ++turned.lines) {
      turned.too_long_lines.push_back(turned.lines);
      text += '\n';
    }
    text.append(begin, end);
    text += '\n';
    if (lines.line() == lines_before) head_bytes = text.size();
    if (text.size() > most_turned_bytes)
      throw InputError(
          "the log's rows run from the newest to the oldest, and it is too large to be turned round here (" +
          std::to_string(most_turned_bytes >> 20U) +
          " MiB); expected the oldest first: tac FILE > TURNED, and put the header's line first again");
  }
  turned.text = std::make_unique<TurnedText>(std::move(text), head_bytes, lines.source().ended_early());
  return turned;
}

}  // namespace ohmwright::cycles
