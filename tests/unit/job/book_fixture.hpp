#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/job_book.hpp>

#include "temporary_folder.hpp"

namespace ohmwright::testing {

/// Time and random bytes that are the same in every run. A second passes with each look at the clock.
struct SteadySources {
  std::int64_t now = 1'700'000'000'000;
  std::uint64_t drawn = 0;

  job::BookSources sources() {
    return {[this] { return now += 1000; },
            [this] {
              std::array<std::uint8_t, 16> bytes{};
              std::uint64_t state = ++drawn * 0x9E3779B97F4A7C15ULL;
              for (std::uint8_t& byte : bytes) {
                state = state * 6364136223846793005ULL + 1442695040888963407ULL;
                byte = static_cast<std::uint8_t>(state >> 56U);
              }
              return bytes;
            }};
  }
};

inline job::NewEntry opening(const std::string& title) {
  return {job::EntryForm::opened, job::ContentWriter().text("title", title).content()};
}

inline job::NewEntry noted(const std::string& text) {
  return {job::EntryForm::note, job::ContentWriter().text("text", text).content()};
}

inline std::unique_ptr<job::JobBook> book_at(const std::string& path, SteadySources& steady) {
  return std::make_unique<job::JobBook>(path, true, job::Author{"tester", "test 1"}, steady.sources());
}

}  // namespace ohmwright::testing
