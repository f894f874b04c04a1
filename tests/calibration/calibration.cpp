// Prints how honest the stated probabilities are: calibration [PARTS [KIND]]. The tables of docs/arithmetic.md are its
// output.

#include <cstdlib>
#include <iostream>

#include "kinds.hpp"
#include "tally.hpp"

int main(int argc, char** argv) {
  using namespace ohmwright;
  using namespace ohmwright::calibration;
  constexpr std::size_t usual_parts = 1'000'000;
  constexpr std::size_t more_for_the_tenths =
      5;  // of 22 000 parts a tenth the share is known to 1 point only (3 sigma)
  constexpr std::uint64_t seed = 20'260'101;
  const std::size_t parts = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : usual_parts;
  std::cout << "seed " << seed << ", " << ReproducibleStream::name << "\n\n";
  for (const CalibratedKind& kind : calibrated_kinds(built_registry())) {
    if (argc > 2 && kind.title != argv[2]) continue;
    const std::shared_ptr<const Part> part = part_of(built_registry(), kind);
    const Descriptor& descriptor = built_registry().kind(kind.kind).descriptor();
    const Meter meter = basic_meter();
    const std::unique_ptr<Workshop> flat = flat_workshop(built_registry(), kind);
    const std::unique_ptr<Workshop> bench = bench_workshop(built_registry(), kind);
    std::cout << table_of(kind.title + ", flat population", *flat,
                          run({*part, descriptor, meter, *flat, more_for_the_tenths * parts, seed}))
              << table_of(kind.title + ", bench of failed appliances", *bench,
                          run({*part, descriptor, meter, *bench, parts, seed}));
  }
  return 0;
}
