#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/search/sampler.hpp>

namespace ohmwright::cycles {

void LogSampler::take(std::span<const LogRow> rows, std::vector<LogSample>& samples) {
  rows_ += rows.size();
  // One pass for each run of rows in a slot, one inner loop for each quantity that the log has.
  for (std::size_t begin = 0; begin < rows.size();) {
    if (rows[begin].time_second >= slot_end_second_) {
      close(samples);
      open(rows[begin]);
    }
    std::size_t end = begin + 1;
    while (end < rows.size() && rows[end].time_second < slot_end_second_) ++end;
    for (std::size_t i = 0; i < log_quantity_count; ++i) {
      // A quantity that a log has stands in most of its rows: the ends of the run tell whether to look at all.
      if (!std::isnan(rows[begin].value[i]) || !std::isnan(rows[end - 1].value[i])) present_ |= 1U << i;
      if ((present_ >> i & 1U) == 0) continue;
      Sum one = sums_[i];
      for (std::size_t at = begin; at < end; ++at) {
        const double value = rows[at].value[i];
        if (std::isnan(value)) continue;
        one.sum += value;
        one.most = std::max(one.most, value);
        one.count += 1.0;
      }
      sums_[i] = one;
    }
    in_slot_ += static_cast<std::uint32_t>(end - begin);
    last_second_ = rows[end - 1].time_second;
    last_line_ = rows[end - 1].line;
    begin = end;
  }
}

void LogSampler::open(const LogRow& row) {
  sums_ = {};
  in_slot_ = 0;
  first_second_ = row.time_second;
  first_line_ = row.line;
  slot_end_second_ = (std::floor(row.time_second / slot_second) + 1.0) * slot_second;
}

void LogSampler::close(std::vector<LogSample>& samples) {
  if (in_slot_ == 0) return;
  LogSample sample;
  sample.first_second = first_second_;
  sample.last_second = last_second_;
  sample.rows = in_slot_;
  sample.first_line = first_line_;
  sample.last_line = last_line_;
  for (std::size_t i = 0; i < log_quantity_count; ++i) {
    const Sum& one = sums_[i];
    const bool any = one.count > 0.0;
    sample.mean[i] = static_cast<float>(any ? one.sum / one.count : LogRow::none);
    sample.typical[i] = static_cast<float>(one.count > 2.0 ? (one.sum - one.most) / (one.count - 1.0)
                                                           : (any ? one.sum / one.count : LogRow::none));
  }
  sample.warmest_coil = static_cast<float>(sums_[index_of(LogQuantity::coil_temperature)].most);
  in_slot_ = 0;
  samples.push_back(sample);
}

void LogSampler::finish(std::vector<LogSample>& samples) { close(samples); }

}  // namespace ohmwright::cycles
