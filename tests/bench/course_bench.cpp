// How long an instructor waits for the marks of a class: 200 records of 20 exercises, each student at work in an order
// of their own, as `course grade` marks them (the key opened and read beforehand). Times belong to the machine.
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <ohmwright/appliance/appliance_document.hpp>

#include "class_room.hpp"
#include "students.hpp"

namespace {

using namespace ohmwright;                   // NOLINT: a program, not a header
using namespace ohmwright::course;           // NOLINT: likewise
using namespace ohmwright::course::testing;  // NOLINT: likewise

void marks_of_200_students(benchmark::State& state) {
  constexpr std::size_t exercises = 20;
  constexpr std::size_t students = 200;
  const CourseKey key = made_key(timer_appliance, Lesson::mixed, "bench", exercises);
  const Bench bench = bench_of(read_appliance(parse_document(key.appliance_text, "appliance"), registry()));
  std::vector<std::string> records;
  {
    Reasoning reasoning(bench, key.meter);
    ReproducibleStream stream(1);
    constexpr std::size_t manners = 5;
    for (std::size_t i = 0; i < students; ++i)
      records.push_back(record_of(static_cast<Manner>(i % manners), key.exercises[i / manners % exercises], bench,
                                  reasoning, stream));
  }
  for (auto _ : state) {
    Grader grader(key, registry(), {});
    double sum = 0.0;
    for (const std::string& record : records) sum += grader.grade(read_record(record, "record"), "record").total;
    benchmark::DoNotOptimize(sum);
  }
}
BENCHMARK(marks_of_200_students)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
