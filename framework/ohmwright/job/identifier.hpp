#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace ohmwright::job {

/// What a book takes from outside: the time and random bytes. Both are given in, so that a test can say what they are.
struct BookSources {
  std::function<std::int64_t()> milliseconds;            ///< since 1970-01-01T00:00:00Z
  std::function<std::array<std::uint8_t, 16>()> random;  ///< of good quality: books merge by what is made of them
};

/// An identifier of 122 random bits: version 4 of RFC 9562.
std::string identifier_of(std::array<std::uint8_t, 16> random);
/// Whether it has the form of one.
bool is_identifier(std::string_view text);

/// "2026-03-01T14:30:00.000Z", of Coordinated Universal Time (RFC 3339). Years 1970 to 9999; beyond, their ends.
std::string time_text(std::int64_t milliseconds);
/// The same read; nothing for what is no such time, February 30 included.
std::optional<std::int64_t> milliseconds_of(std::string_view time);

}  // namespace ohmwright::job
