#pragma once

#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/locate/prober.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::locate::testing {

/// One instrument out of all that a data sheet may stand for, and the person who holds its probes.
///
/// Its gain and its test leads are off by the same at every reading; its last digits, the probes' contact (0 to 0.1
/// ohm, common practice, no source) and slips of the person come anew.
class DrawnMeter {
 public:
  /// `meter` must outlive it.
  DrawnMeter(const Meter& meter, ReproducibleStream& stream);

  /// What is written down of a true value [ohm, V, A]; none of ohms is no way between the probes. A slip made at a
  /// measurement may be made there again.
  Observed shown(const Measurement& measurement, Probe probe, std::optional<double> truth,
                 ReproducibleStream& stream) const;

  std::size_t misreadings() const { return misreadings_; }

 private:
  Observed slip(Probe probe, ReproducibleStream& stream) const;
  Observed displayed(Probe probe, double value, ReproducibleStream& stream) const;

  const Meter* meter_;
  double gain_share_ = 0.0;  ///< of the percentage of its accuracy [-1…1)
  double lead_ohm_ = 0.0;
  mutable std::size_t misreadings_ = 0;
  mutable std::vector<std::pair<Measurement, Observed>> slips_;
};

}  // namespace ohmwright::locate::testing
