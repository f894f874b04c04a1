#include <cmath>
#include <optional>

#include <gtest/gtest.h>

#include <ohmwright/locate/shared_errors.hpp>

// How readings follow one wide tolerance, against resistances in parallel and in series worked out beside it: 1/R = 1/a
// + 1/b and R = a + b (G. S. Ohm's law and its sums, any handbook of electricity; from memory).

namespace ohmwright::locate {
namespace {

constexpr std::uint64_t board_input = 7;
constexpr double board_ohm = 10e3;
constexpr double board_spread = 1.0;

double parallel(double a, double b) { return a * b / (a + b); }

double on_scale(double ohm) { return scale_of(Probe::ohms).at(ohm); }

double board_at(double deviation) { return board_ohm * std::exp(board_spread * deviation); }

std::optional<Bend> bend_beside(double sensor_ohm) {
  return bend_through(board_input, board_spread, parallel(sensor_ohm, board_at(-1.0)),
                      parallel(sensor_ohm, board_at(0.0)), parallel(sensor_ohm, board_at(1.0)));
}

/// Of a sensor whose resistance is known, beside the input of a board that nobody rates.
PredictedOutcome beside_the_board(double sensor_ohm) {
  PredictedOutcome made;
  const Bend bend = bend_beside(sensor_ohm).value();
  made.mean = on_scale(parallel(sensor_ohm, board_ohm));
  made.shared.push_back({board_input, bend.slope_at(0.0)});
  made.bends.push_back(bend);
  constexpr double own = 0.005;
  made.uncertainty = std::hypot(bend.slope_at(0.0), own);
  return made;
}

TEST(Bend, IsThatOfTwoInParallel) {
  const Bend bend = bend_beside(30e3).value();
  for (const double deviation : {-3.0, -1.5, -0.5, 0.0, 0.7, 2.0}) {
    const double change = on_scale(parallel(30e3, board_at(deviation))) - on_scale(parallel(30e3, board_ohm));
    EXPECT_NEAR(bend.added_at(deviation), change, 1e-9) << deviation;
    constexpr double step = 1e-4;
    EXPECT_NEAR(bend.slope_at(deviation),
                (bend.added_at(deviation + step) - bend.added_at(deviation - step)) / (2.0 * step), 1e-6);
  }
}

TEST(Bend, IsThatOfTwoInSeries) {
  const Bend bend = bend_through(1, 0.3, 100.0 + 50.0 * std::exp(-0.3), 150.0, 100.0 + 50.0 * std::exp(0.3)).value();
  EXPECT_NEAR(bend.added_at(2.0), on_scale(100.0 + 50.0 * std::exp(0.6)) - on_scale(150.0), 1e-9);
}

TEST(Bend, IsNoneWhereTheBranchDoesNothing) {
  EXPECT_FALSE(bend_through(1, 0.3, 150.0, 150.0, 150.0));
  EXPECT_FALSE(bend_through(1, 0.3, 160.0, 150.0, 140.0)) << "no resistance makes less of a reading by growing";
}

// What a cold sensor beside the board tells of the board's input, the warm one beside it must show: a straight line
// through the middle of a decade would be 4 to 30 % off.
TEST(Bend, LetsOneReadingTellWhatTheNextWillBe) {
  for (const double deviation : {-1.5, -1.0, 0.8, 1.5}) {
    SharedErrors errors;
    SeenReading seen;
    seen.at = on_scale(parallel(30e3, board_at(deviation)));
    errors.learn(beside_the_board(30e3), seen, 0.001);
    const SharedErrors::Narrowed warm = errors.narrowed(beside_the_board(10e3));
    EXPECT_NEAR(warm.mean, on_scale(parallel(10e3, board_at(deviation))), 0.003) << deviation;
    EXPECT_LT(warm.uncertainty, 0.01);
  }
}

}  // namespace
}  // namespace ohmwright::locate
