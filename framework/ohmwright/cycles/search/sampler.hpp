#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include <ohmwright/cycles/log_row.hpp>

namespace ohmwright::cycles {

/// Rows of some seconds, taken together.
struct LogSample {
  double first_second = 0.0;
  double last_second = 0.0;
  std::uint32_t rows = 0;
  std::uint64_t first_line = 0;
  std::uint64_t last_line = 0;
  float warmest_coil = 0.0F;  ///< [K]
  /// Not-a-number where no row had a value.
  std::array<float, log_quantity_count> mean{};
  /// Without the greatest of three and more: an inrush does not count.
  std::array<float, log_quantity_count> typical{};
};

/// Puts rows that are closer than twenty seconds into one sample.
class LogSampler {
 public:
  static constexpr double slot_second = 20.0;

  /// Adds the samples that are complete with these rows.
  void take(std::span<const LogRow> rows, std::vector<LogSample>& samples);
  void finish(std::vector<LogSample>& samples);

  std::uint64_t rows() const { return rows_; }

 private:
  void close(std::vector<LogSample>& samples);
  void open(const LogRow& row);

  struct Sum {
    double sum = 0.0;
    double most = -1e30;
    double count = 0.0;
  };
  std::array<Sum, log_quantity_count> sums_;
  double first_second_ = 0.0;
  double last_second_ = 0.0;
  std::uint64_t first_line_ = 0;
  std::uint64_t last_line_ = 0;
  double slot_end_second_ = -1.0;
  std::uint32_t in_slot_ = 0;
  std::uint64_t rows_ = 0;
  unsigned present_ = 0;  ///< bits of the quantities that this log has had
};

}  // namespace ohmwright::cycles
