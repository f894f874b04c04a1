#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

namespace ohmwright::testing {

/// How the invented freezer defrosts.
enum class Defrosts { well, never, until_the_time_limit };

/// The same for more days, and what it does from a minute on.
struct Lasting {
  int days = 3;
  int changes_at = 1 << 30;
  enum class To { never_defrosts, is_dead } to = To::never_defrosts;
};

/// Three days of an invented freezer, a row a minute: compressor 95 W, 22 min on and 19 off; a defrost of 210 W every
/// ten hours, its coil melting at 0.3 degC for 12 to 14 min and ending at 10 degC, or still melting after 39 min.
inline std::string freezer(Defrosts how, const Lasting& lasting = {}) {
  std::string log = "Time;Power (W);Coil (°C)\n";
  double coil = -20.0;
  int minutes_to_melt = 0;
  bool is_heating = false;
  for (int minute = 0; minute < lasting.days * 24 * 60; ++minute) {
    const int of_cycle = minute % 600;
    const bool is_changed = minute >= lasting.changes_at;
    if (is_changed && lasting.to == Lasting::To::never_defrosts) how = Defrosts::never;
    double watt = minute % 41 < 22 ? 95.0 : 2.0;
    const double target = watt > 50.0 ? -24.0 : -17.0;
    const bool to_the_limit = how == Defrosts::until_the_time_limit;
    constexpr double ends_at = 10.0;
    if (how != Defrosts::never && of_cycle == 560) {
      is_heating = true;
      minutes_to_melt = 12 + minute / 600 % 3;  // the frost of one interval is not that of another
    }
    if (is_heating) is_heating = to_the_limit ? of_cycle != 599 : coil < ends_at;
    if (is_heating) {
      watt = 210.0;
      if (coil < 0.3)
        coil = std::min(0.3, coil + 1.7);
      else if (to_the_limit || minutes_to_melt-- > 0)
        coil = 0.3;
      else
        coil += 1.1;
    } else {
      coil += 0.12 * (target - coil);
    }
    if (is_changed && lasting.to == Lasting::To::is_dead) {
      watt = 0.0;
      coil = 21.0;
    }
    const double wobble = 0.1 * std::sin(0.7 * minute);
    char row[96];
    std::snprintf(row, sizeof row, "2026-03-%02d %02d:%02d;%.1f;%.1f\n", 2 + minute / 1440, minute / 60 % 24,
                  minute % 60, watt + wobble, coil + wobble);
    log += row;
  }
  return log;
}

/// Columns of the widest line, each character one (the pages of logs have no wider ones).
inline int widest_line(const std::string& page) {
  int widest = 0;
  int columns = 0;
  for (const char byte : page) {
    if (byte == '\n')
      columns = 0;
    else if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U)
      widest = std::max(widest, ++columns);
  }
  return widest;
}

}  // namespace ohmwright::testing
