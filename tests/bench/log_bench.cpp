// Whole logs in one thread: reading alone, reading with the whole analysis, and the log to try it on.
// usage: log_bench read|analyse FILE   ("-" for standard input): rows, seconds, peak memory
//        log_bench generate ROWS       a log of one second a row on standard output: time, coil temperature, power
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <string>
#include <sys/resource.h>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>

namespace {

using namespace ohmwright::cycles;

double peak_megabytes() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

void read_only(const char* path) {
  LogReader reader(open_log(path));
  double sum = 0.0;
  for (std::span<const LogRow> rows = reader.next(); !rows.empty(); rows = reader.next())
    for (const LogRow& row : rows) sum += row.value[index_of(LogQuantity::power)];
  std::printf("%llu rows, mean power %.3f W\n", static_cast<unsigned long long>(reader.rows()),
              sum / static_cast<double>(reader.rows()));
}

void analyse(const char* path) {
  LogReader reader(open_log(path));
  LogAnalyser analyser;
  for (std::span<const LogRow> rows = reader.next(); !rows.empty(); rows = reader.next()) analyser.take(rows);
  const LogAnalysis log = analyser.finish(reader);
  std::printf("%llu rows, %llu runs, %llu defrosts\n", static_cast<unsigned long long>(reader.rows()),
              static_cast<unsigned long long>(log.run_count), static_cast<unsigned long long>(log.defrost_count));
}

/// A defrost of 20 minutes every ten hours, a compressor of 50 minutes a cycle, noise from a small generator.
void generate(unsigned long long rows) {
  std::printf("timestamp,coil_temperature [degC],power [W]\n");
  std::uint32_t noise = 1;
  std::string block;
  for (unsigned long long i = 0; i < rows; ++i) {
    noise = noise * 1664525U + 1013904223U;
    const unsigned long long into = i % 36000;
    const bool heats = into < 1200;
    const bool drips = !heats && into < 1620;
    const bool runs = !heats && !drips && (into < 6120 || (into - 1620) % 3000 < 1400);
    const double warm = into < 300 ? -20.0 + static_cast<double>(into) / 15.0
                                   : (into < 800 ? 0.0 : static_cast<double>(into - 800) / 40.0);
    const double coil = (heats ? warm : (drips ? 8.0 : (runs ? -24.0 : -18.0))) + (noise >> 24U) / 850.0;
    const double watt = (heats ? 412.0 : (runs ? 118.0 : 2.0)) + (noise >> 16U & 255U) / 100.0;
    char line[64];
    const unsigned long long day = i / 86400;
    const int length =
        std::snprintf(line, sizeof line, "%04llu-%02llu-%02lluT%02llu:%02llu:%02llu,%.1f,%.1f\n", 2000 + day / 336,
                      1 + day / 28 % 12, 1 + day % 28, i / 3600 % 24, i / 60 % 60, i % 60, coil, watt);
    block.append(line, static_cast<std::size_t>(length));
    if (block.size() < 60000 && i + 1 < rows) continue;
    std::fwrite(block.data(), 1, block.size(), stdout);
    block.clear();
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  try {
    if (std::strcmp(argv[1], "generate") == 0) {
      generate(std::strtoull(argv[2], nullptr, 10));
      return 0;
    }
    const auto start = std::chrono::steady_clock::now();
    if (std::strcmp(argv[1], "read") == 0) read_only(argv[2]);
    if (std::strcmp(argv[1], "analyse") == 0) analyse(argv[2]);
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
    std::printf("%.3f s, peak %.1f MiB\n", passed.count(), peak_megabytes());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  }
}
