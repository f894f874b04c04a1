#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

struct Read {
  std::optional<ThermostatRatings> ratings;
  std::vector<Problem> problems;
};

Read read(std::string_view text) {
  const Document document = parse_document(text, "test.json");
  Read result;
  result.ratings = read_ratings(document.root, result.problems);
  return result;
}

std::string first_problem(std::string_view text) {
  const Read result = read(text);
  EXPECT_FALSE(result.ratings);
  if (result.problems.empty()) return "none";
  return result.problems[0].pointer + ":" + std::to_string(result.problems[0].line) + ": " + result.problems[0].text;
}

constexpr std::string_view opening = R"("opening":{"temperature":"13 degC","tolerance":"3 K"})";
constexpr std::string_view closing = R"("closing":{"temperature":"-5 degC","tolerance":"5 K"})";

std::string with(std::string_view more) {
  return "{" + std::string(opening) + "," + std::string(closing) + "," + std::string(more) + "}";
}

TEST(Ratings, AreRead) {
  const Read result = read(R"({"opening":{"temperature":{"value":"55.4 degF","source":"stamp"},"tolerance":"3 K",
      "service_tolerance":"5 K","spread":"normal"},"closing":{"temperature":"-5 degC","tolerance":"5 K"},
      "action":"type-2","rated_current":"10 A","rated_voltage":"250 V","contact_resistance":"100 mohm","leads":4,
      "thermal_link":{"functioning_temperature":"77 degC","holding_temperature":"62 degC"}})");
  ASSERT_TRUE(result.ratings);
  const ThermostatRatings& r = *result.ratings;
  EXPECT_NEAR(r.opening.nominal.celsius(), 13.0, 1e-9);
  EXPECT_EQ(r.opening.tolerance, kelvin(3));
  EXPECT_EQ(r.opening.allowed, kelvin(5));
  EXPECT_EQ(r.opening.spread, Spread::normal);
  EXPECT_EQ(r.closing.allowed, kelvin(5));
  EXPECT_EQ(r.action, Action::type_2);
  EXPECT_TRUE(r.promises_trip_points());
  EXPECT_EQ(r.rated_current, Current::from_value(10));
  EXPECT_EQ(r.rated_voltage, Voltage::from_value(250));
  EXPECT_NEAR(r.contact_resistance->value(), 0.1, 1e-12);
  EXPECT_TRUE(r.link_has_own_leads());
  EXPECT_NEAR(r.link->functioning.celsius(), 77, 1e-9);
  EXPECT_NEAR(r.link->holding->celsius(), 62, 1e-9);
  EXPECT_FALSE(r.closing_from_differential);
}

TEST(Ratings, ADifferentialAloneGivesTheClosingPoint) {
  const Read result = read("{" + std::string(opening) + R"(,"differential":{"difference":"18 K","tolerance":"4 K"}})");
  ASSERT_TRUE(result.ratings);
  EXPECT_TRUE(result.ratings->closing_from_differential);
  EXPECT_NEAR(result.ratings->closing.nominal.celsius(), -5, 1e-9);
  EXPECT_NEAR(result.ratings->closing.allowed.value(), 7, 1e-9);
}

TEST(Ratings, TellWhatIsWrongWithThem) {
  EXPECT_EQ(
      first_problem(
          R"({"opening":{"temperature":"13 ohm","tolerance":"3 K"},"closing":{"temperature":"-5 degC","tolerance":"5 K"}})"),
      "/opening/temperature:1: expected a temperature, such as \"23 degC\", got \"13 ohm\"");
  EXPECT_EQ(
      first_problem(
          R"({"opening":{"temperature":"13 degC +- 3 K","tolerance":"3 K"},"closing":{"temperature":"-5 degC","tolerance":"5 K"}})"),
      "/opening/temperature:1: a rating has no ± of its own; how far good parts may be off stands under "
      "\"tolerance\"");
  EXPECT_EQ(
      first_problem(
          R"({"opening":{"temperature":"13 degC","tolerance":"0 K"},"closing":{"temperature":"-5 degC","tolerance":"5 K"}})"),
      "/opening/tolerance:1: a tolerance must be above 0 K, such as \"3 K\"");
  EXPECT_EQ(
      first_problem(
          R"({"opening":{"temperature":"13 degC","tolerance":"3 K","service_tolerance":"2 K"},"closing":{"temperature":"-5 degC","tolerance":"5 K"}})"),
      "/opening/service_tolerance:1: the tolerance in service holds the drift beside that of new parts; it cannot "
      "be the smaller one");
  EXPECT_EQ(
      first_problem(
          R"({"opening":{"temperature":"-5 degC","tolerance":"3 K"},"closing":{"temperature":"13 degC","tolerance":"5 K"}})"),
      "/closing/temperature:1: a thermostat of this kind opens as it warms and closes again colder than it opened; "
      "were the two swapped?");
  EXPECT_EQ(first_problem("{" + std::string(opening) + R"(,"differential":{"difference":"4 K","tolerance":"4 K"}})"),
            "/differential/tolerance:1: the tolerance of a differential lies between 0 K and the differential itself");
  EXPECT_EQ(first_problem(with(R"("rated_current":"0 A")")), "/rated_current:1: this figure must be above 0");
}

TEST(Ratings, TellWhatIsWrongWithTheLink) {
  EXPECT_EQ(first_problem(with(R"("thermal_link":{"functioning_temperature":"77 degC"})")),
            "/thermal_link:1: say how many \"leads\" the part has: with two the link cannot be read alone");
  EXPECT_EQ(first_problem(with(R"("leads":4,"thermal_link":{"functioning_temperature":"15 degC"})")),
            "/thermal_link/functioning_temperature:1: the link must open above the temperature at which the thermostat "
            "opens; check the unit");
  EXPECT_EQ(first_problem(with(
                R"("leads":4,"thermal_link":{"functioning_temperature":"77 degC","holding_temperature":"80 degC"})")),
            "/thermal_link/holding_temperature:1: a link holds below the temperature at which it functions");
}

TEST(Ratings, AllProblemsAreToldAtOnce) {
  EXPECT_EQ(read(with(R"("rated_current":"0 A","contact_resistance":"0 ohm","rated_voltage":"0 V")")).problems.size(),
            3U);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
