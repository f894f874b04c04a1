#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

std::string_view name_of(EndCause cause) {
  switch (cause) {
    case EndCause::temperature:
      return "temperature";
    case EndCause::time_limit:
      return "time-limit";
    case EndCause::unknown:
      return "unknown";
  }
  return "";
}

std::string_view name_of(EndGround ground) {
  switch (ground) {
    case EndGround::nothing:
      return "nothing";
    case EndGround::rated_temperature:
      return "rated-temperature";
    case EndGround::rated_time:
      return "rated-time";
    case EndGround::still_melting:
      return "still-melting";
    case EndGround::below_rated:
      return "below-rated";
    case EndGround::past_rated:
      return "past-rated";
    case EndGround::past_melting:
      return "past-melting";
    case EndGround::equal_temperatures:
      return "equal-temperatures";
    case EndGround::equal_durations:
      return "equal-durations";
    case EndGround::unequal_durations:
      return "unequal-durations";
  }
  return "";
}

}  // namespace ohmwright::cycles
