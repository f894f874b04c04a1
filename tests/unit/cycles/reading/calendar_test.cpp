#include <ctime>
#include <tuple>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/cycles/reading/calendar.hpp>

namespace ohmwright::cycles {
namespace {

// POSIX.1-2017, 4.16 "Seconds Since the Epoch": the C library's timegm counts the same days.
TEST(Days, AreThoseOfTheCLibrary) {
  for (std::int64_t day = -40000; day < 60000; day += 17) {
    const std::time_t second = day * 86400;
    std::tm date{};
    ASSERT_NE(::gmtime_r(&second, &date), nullptr);
    EXPECT_EQ(days_since_epoch(date.tm_year + 1900, static_cast<unsigned>(date.tm_mon + 1),
                               static_cast<unsigned>(date.tm_mday)),
              day);
  }
}

TEST(Days, ThatDoNotExistAreKnown) {
  EXPECT_TRUE(date_exists(2024, 2, 29));
  EXPECT_TRUE(date_exists(2000, 2, 29));
  EXPECT_FALSE(date_exists(1900, 2, 29));
  EXPECT_FALSE(date_exists(2023, 2, 29));
  EXPECT_FALSE(date_exists(2023, 13, 1));
  EXPECT_FALSE(date_exists(2023, 4, 31));
}

std::optional<std::int64_t> day_of(std::string_view text, DateOrder order) {
  const std::optional<DateText> date = take_date(text);
  return date ? day_number(*date, order) : std::nullopt;
}

TEST(Dates, AreReadAsPeopleWriteThem) {
  const std::int64_t third_of_april = days_since_epoch(2024, 4, 3);
  const std::vector<std::tuple<const char*, DateOrder>> writings{
      {"2024-04-03", DateOrder::year_first},      {"2024/4/3", DateOrder::day_first},
      {"20240403", DateOrder::year_first},        {"03/04/2024", DateOrder::day_first},
      {"3.4.2024", DateOrder::day_first},         {"03-04-24", DateOrder::day_first},
      {"04/03/2024", DateOrder::month_first},     {"4/3/24", DateOrder::month_first},
      {"3-Apr-2024", DateOrder::month_first},     {"3 April 2024", DateOrder::day_first},
      {"Apr 3, 2024", DateOrder::day_first},      {"Wed Apr 3 2024", DateOrder::day_first},
      {"Wed, 03 Apr 2024", DateOrder::day_first}, {"24-04-03", DateOrder::year_first}};
  for (const auto& [text, order] : writings) EXPECT_EQ(day_of(text, order), third_of_april) << text;
  for (const char* text : {"", "12.5", "2024", "2024-13", "03/04", "3 Foo 2024", "1:2:3"})
    EXPECT_FALSE(day_of(text, DateOrder::day_first)) << text;
  EXPECT_FALSE(day_of("31/02/2024", DateOrder::day_first));
}

TEST(ClockTimes, AreReadAsPeopleWriteThem) {
  const std::vector<std::tuple<const char*, double>> writings{
      {"14:05", 50700.0},      {"14:05:30", 50730.0},   {"14:05:30.25", 50730.25}, {"14:05:30,25", 50730.25},
      {"14.05.30", 50730.0},   {"2:05:30 PM", 50730.0}, {"02:05:30pm", 50730.0},   {"12:00 AM", 0.0},
      {"12:30 p.m.", 45000.0}, {"14:05:30Z", 50730.0},  {"24:00", 86400.0},        {"14:05:30 +02:00", 50730.0}};
  for (const auto& [writing, second] : writings) {
    std::string_view text = writing;
    const std::optional<ClockText> clock = take_clock(text);
    ASSERT_TRUE(clock) << writing;
    EXPECT_NEAR(clock->second_of_day, second, 1e-9) << writing;
    EXPECT_EQ(text, "") << writing;
  }
  for (const char* writing : {"25:00", "14:60", "14:5", "14", "14.05", ":05", "13:00 PM"}) {
    std::string_view text = writing;
    const std::optional<ClockText> clock = take_clock(text);
    EXPECT_TRUE(!clock || !text.empty()) << writing;
  }
}

TEST(ClockTimes, CarryTheirZone) {
  for (const auto& [writing, zone] : std::vector<std::tuple<const char*, double>>{{"14:05:30Z", 0.0},
                                                                                  {"14:05:30+0200", 7200.0},
                                                                                  {"14:05:30-06", -21600.0},
                                                                                  {"14:05:30+05:30", 19800.0},
                                                                                  {"14:05 UTC+1", 3600.0}}) {
    std::string_view text = writing;
    const std::optional<ClockText> clock = take_clock(text);
    ASSERT_TRUE(clock && clock->zone_second) << writing;
    EXPECT_EQ(*clock->zone_second, zone) << writing;
  }
}

}  // namespace
}  // namespace ohmwright::cycles
