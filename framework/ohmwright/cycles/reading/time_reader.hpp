#pragma once

#include <array>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string_view>

#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/cycles/reading/time_form.hpp>

namespace ohmwright::cycles {

/// The start of a time cell, up to its seconds, as it stood in the row before: rows of one minute share it.
class RememberedMinute {
 public:
  static constexpr std::size_t longest = 24;

  /// `cell` has its seconds at `seconds_at`; `suffix` (a zone, "PM") follows them and their fraction.
  void keep(std::string_view cell, std::size_t seconds_at, std::string_view suffix, double second_at_zero);
  void forget() { length_ = 0; }

  /// Whether the bytes at `text` begin like the remembered row. There must be 32 bytes to look at.
  bool matches(const char* text) const {
    std::uint64_t difference = 0;
    for (std::size_t word = 0; word < words; ++word) {
      std::uint64_t bytes = 0;
      std::memcpy(&bytes, text + 8 * word, 8);
      difference |= (bytes ^ start_[word]) & mask_[word];
    }
    return difference == 0 && length_ != 0;
  }

  /// Reads the seconds after `matches`; gives the byte after the cell's time, or null when they are written otherwise.
  const char* seconds_after(const char* text, double& second) const {
    text += length_;
    if (!detail::is_digit(text[0]) || !detail::is_digit(text[1])) return nullptr;
    double seconds = (text[0] - '0') * 10 + (text[1] - '0');
    if (seconds > 60.0) return nullptr;
    text += 2;
    if (*text == '.' && detail::is_digit(text[1])) {
      const char* const point = ++text;
      std::int64_t fraction = 0;
      while (detail::is_digit(*text) && text - point < 12) fraction = fraction * 10 + (*text++ - '0');
      seconds += static_cast<double>(fraction) / detail::powers_of_ten[static_cast<std::size_t>(text - point)];
    }
    for (std::size_t i = 0; i < suffix_length_; ++i)
      if (text[i] != suffix_[i]) return nullptr;
    second = second_at_zero_ + seconds;
    return text + suffix_length_;
  }

 private:
  static constexpr std::size_t words = longest / 8;
  std::array<std::uint64_t, words> start_{};
  std::array<std::uint64_t, words> mask_{};
  std::array<char, 8> suffix_{};
  std::size_t suffix_length_ = 0;
  std::size_t length_ = 0;
  double second_at_zero_ = 0.0;
};

/// Turns the time cells of rows into seconds on one scale: since 1970-01-01 for calendar and epoch, since an unknown
/// start otherwise. Where a guessed order of day, month and year proves wrong at the next date, and one other alone
/// fits, it changes to that one.
class TimeReader {
 public:
  explicit TimeReader(const TimeForm& form) : form_(form), first_writing_(form.writing) {}

  const TimeForm& form() const { return form_; }
  /// Whether what was taken for a clock proved to count from the start of the log.
  bool clock_was_elapsed() const { return form_.writing != first_writing_; }
  /// Whether the guessed order of day and month proved wrong.
  bool order_was_changed() const { return order_was_changed_; }
  /// Days by which times on the scale are later than the calendar, after such a change.
  std::int64_t day_shift() const { return day_shift_; }

  /// Time of a whole cell, without quotes and blanks around it, [s].
  std::optional<double> read(std::string_view cell);
  /// The same where date and clock time stand in two cells.
  std::optional<double> read(std::string_view date, std::string_view clock);

  /// Whether all hours so far lie between 1 and 12, as on a dial, and none says am or pm.
  bool hours_are_of_a_dial() const { return least_hour_ >= 1.0 && most_hour_ < 13.0 && !half_is_written_; }

  const RememberedMinute& remembered() const { return remembered_; }

 private:
  std::optional<double> calendar(std::string_view cell);
  std::optional<double> clock_alone(std::string_view cell);
  std::optional<double> past_a_day(std::string_view cell);
  std::optional<double> number(std::string_view cell) const;
  std::optional<std::int64_t> day_of(const DateText& date);
  void settle_order(const DateText& before, const DateText& now);
  void note_hour(const ClockText& clock);
  void remember(std::string_view cell, std::string_view clock_text, double second);

  TimeForm form_;
  TimeWriting first_writing_;
  RememberedMinute remembered_;
  std::optional<DateText> last_date_;
  std::int64_t day_shift_ = 0;
  bool order_was_changed_ = false;
  double last_clock_ = -1.0;
  double least_hour_ = 24.0;
  double most_hour_ = 0.0;
  bool half_is_written_ = false;
  double days_passed_second_ = 0.0;
};

}  // namespace ohmwright::cycles
