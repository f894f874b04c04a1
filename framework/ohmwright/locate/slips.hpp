#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// How a reading that nothing explains may have come about.
struct Slip {
  enum class Form : std::uint8_t {
    lead_left_on,      ///< the connector was still in, the lead not lifted
    other_state,       ///< it was read after `set_up`, or as found where that is empty
    left_on_in_state,  ///< both at once
    other_terminals,   ///< it was read at `test_point`, on the same connector
  };

  std::size_t reading = 0;
  Form form = Form::lead_left_on;
  std::optional<std::size_t> set_up = {};
  std::size_t test_point = 0;  ///< of `other_terminals`
};

/// For each reading that may well be misread, even if a rare fault is likelier: the slip after which one fault at once,
/// or none, explains it together with the other readings; where no plain one does, both ways of a less plain one. None
/// where no slip does.
std::vector<Slip> find_slips(const Prober& prober, const Diagnosis& diagnosis, std::span<const TakenReading> readings,
                             const Signs& signs);

}  // namespace ohmwright::locate
