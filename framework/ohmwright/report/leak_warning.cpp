#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/leak_warning.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright {

std::string leak_warning(const Appliance& appliance, const locate::TakenReading& reading, const Sentences& say) {
  return say(
      OHMWRIGHT_TEXT("STOP, do not energise it: {point} shows {shown}, where insulation to the frame belongs. "
                     "The frame may become live. Leave the plug out until what leaks is mended and an "
                     "insulation tester has read the insulation."),
      {{"point", appliance.test_points[reading.measurement.test_point].title}, {"shown", shown_reading(reading, say)}});
}

}  // namespace ohmwright
