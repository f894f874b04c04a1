// Whole logs in one thread: reading alone, and reading with the whole analysis.
// usage: log_bench read|analyse FILE   ("-" for standard input); prints rows, seconds and peak memory.
#include <chrono>
#include <cstdio>
#include <cstring>
#include <exception>
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
    for (const LogRow& row : rows) sum += row.time_second;
  std::printf("%llu rows, last time sum %g\n", static_cast<unsigned long long>(reader.rows()), sum);
}

void analyse(const char* path) {
  LogReader reader(open_log(path));
  LogAnalyser analyser;
  for (std::span<const LogRow> rows = reader.next(); !rows.empty(); rows = reader.next()) analyser.take(rows);
  const LogAnalysis log = analyser.finish();
  std::printf("%llu rows, %llu runs, %llu defrosts\n", static_cast<unsigned long long>(reader.rows()),
              static_cast<unsigned long long>(log.run_count), static_cast<unsigned long long>(log.defrost_count));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  try {
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
