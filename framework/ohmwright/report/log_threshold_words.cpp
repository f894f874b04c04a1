#include <algorithm>
#include <array>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_words.hpp>

namespace ohmwright {

namespace {

/// A threshold's sentence, and how its number is written.
struct ThresholdWords {
  std::string_view id;
  std::string_view english;
  bool is_temperature = false;  ///< [K], written in degC
};

constexpr std::array threshold_words{
    ThresholdWords{"heater_watt", OHMWRIGHT_TEXT("A heater draws from {value} W on")},
    ThresholdWords{"heater_ampere", OHMWRIGHT_TEXT("A heater draws from {value} A on")},
    ThresholdWords{"heater_shortest_second", OHMWRIGHT_TEXT("and for {value} s at least")},
    ThresholdWords{"compressor_on_watt", OHMWRIGHT_TEXT("The compressor runs from {value} W on")},
    ThresholdWords{"compressor_off_watt", OHMWRIGHT_TEXT("and rests below {value} W")},
    ThresholdWords{"compressor_on_ampere", OHMWRIGHT_TEXT("The compressor runs from {value} A on")},
    ThresholdWords{"compressor_off_ampere", OHMWRIGHT_TEXT("and rests below {value} A")},
    ThresholdWords{"compressor_swing_kelvin", OHMWRIGHT_TEXT("The compressor's cycles swing by {value} K at least")},
    ThresholdWords{"coil_excursion_kelvin", OHMWRIGHT_TEXT("The coil warms as in a defrost past {value} °C"), true},
    ThresholdWords{"cabinet_excursion_kelvin", OHMWRIGHT_TEXT("The cabinet warms as in a defrost past {value} °C"),
                   true},
    ThresholdWords{"door_rise_kelvin", OHMWRIGHT_TEXT("A door lets the cabinet rise at once by {value} K at least")},
    ThresholdWords{"gap_second", OHMWRIGHT_TEXT("Rows further apart than {value} s are a gap")},
};

}  // namespace

std::string log_threshold_text(const cycles::LogThreshold& threshold, const Sentences& say) {
  for (const ThresholdWords& words : threshold_words)
    if (words.id == threshold.id)
      return say(
          words.english,
          {{"value",
            rounded(words.is_temperature ? threshold.value - cycles::melting_point_kelvin : threshold.value, 1)}});
  return std::string(threshold.id) + ": " + rounded(threshold.value, 1);
}

}  // namespace ohmwright
