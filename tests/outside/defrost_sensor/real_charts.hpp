#pragma once

#include <array>
#include <string_view>

namespace ohmwright::defrost_sensor::testing_support {

/// The chart of a thermistor as its maker prints it.
struct RealChart {
  std::string_view name;
  double b25_85;  ///< from its rows at 25 and 85 °C [K]
  std::array<double, 19> ohms;
};

/// Temperatures of the rows [°C].
inline constexpr std::array<double, 19> real_chart_celsius{-40, -30, -20, -10, 0,  10, 20,  25,  30, 40,
                                                           50,  60,  70,  80,  85, 90, 100, 110, 120};

/// Five materials. Source: makers' sheets as the temperature driver `ntc_thermistor` of the Linux kernel quotes them;
/// figures only, every second row, and those at 25 and 85 °C.
inline constexpr std::array<RealChart, 5> real_charts{{
    {"47 kohm",
     4107.8,
     {1747920, 898485, 483954, 271697, 158214, 95227, 59065, 47000, 37643, 24591, 16433, 11209, 7798, 5518, 4674, 3972,
      2902, 2150, 1615}},
    {"33 kohm",
     4543.6,
     {1610154, 802609, 416464, 224193, 124850, 71747, 42455, 33000, 25822, 16115, 10306, 6746, 4513, 3084, 2569, 2151,
      1529, 1108, 817}},
    {"100 kohm",
     4310.7,
     {4397119, 2197225, 1151037, 628988, 357012, 209710, 127080, 100000, 79222, 50677, 33195, 22224, 15184, 10566, 8873,
      7481, 5384, 3934, 2916}},
    {"10 kohm, straight",
     3431.7,
     {247565, 135128, 77373, 46222, 28674, 18399, 12169, 10000, 8271, 5762, 4105, 2985, 2211, 1666, 1454, 1275, 990,
      779, 620}},
    {"10 kohm, bent",
     3435.4,
     {190030, 112060, 68104, 42576, 27326, 17973, 12090, 10000, 8311, 5825, 4158, 3019, 2227, 1668, 1451, 1266, 973,
      757, 596}},
}};

}  // namespace ohmwright::defrost_sensor::testing_support
