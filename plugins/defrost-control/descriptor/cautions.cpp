#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_control {

std::vector<CautionDescriptor> describe_cautions() {
  return {
      {"forced-defrost", OHMWRIGHT_TEXT("Forced defrost: proved limit, clear drain, time limit, somebody there"),
       OHMWRIGHT_TEXT("Force a defrost only with a proved, unbridged limit, a clear drain and a time limit, and stay "
                      "with it until it is over."),
       "common practice, no source"},
      {"sensor-pins-live", OHMWRIGHT_TEXT("A board's sensor pins may carry line voltage, whatever the meter shows"),
       OHMWRIGHT_TEXT(
           "A board's sensor side may be tied to the line: its few volts can stand 120 or 230 V above earth. "
           "Touch no pin, no sensor and no wire of it with power on, and use no instrument that is earthed or "
           "joined to a computer."),
       "common practice, no source"},
      {"cam-live", OHMWRIGHT_TEXT("Turn the cam unplugged only"),
       OHMWRIGHT_TEXT("Turn the cam of a timer only with the plug out: terminals lie bare beside the shaft, and the "
                      "compressor or the heater starts at the click."),
       "common practice, no source"},
  };
}

}  // namespace ohmwright::defrost_control
