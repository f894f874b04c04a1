#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// Whether times follow each other, without knowing what they count from: numbers, clock times "14:05:30" (the hours
/// may go beyond 24), or dates, year first, "2024-03-01 14:05:30". The first decides which.
class TimeOrder {
 public:
  /// Takes the next time. Gives what is wrong with it, "" when nothing: it is none, of another form than the first, or
  /// before the one taken last.
  std::string take(std::string_view text);

 private:
  enum class Form { none, number, clock, date };
  struct Time {
    Form form = Form::none;
    long day = 0;  ///< only its order counts
    double seconds = 0.0;
  };

  static Time read(std::string_view text);

  Time last_;
  bool given_up_ = false;  ///< the first was no time: nothing can be compared with it
  std::string last_text_;
};

}  // namespace ohmwright
