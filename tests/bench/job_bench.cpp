// What a technician waits for in a book of a hundred thousand jobs: list, show and next, from the program's start to
// its end. `ohmwright --version` stands beside them: what starting a program costs at all.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/job_book.hpp>

namespace {

using namespace ohmwright;  // NOLINT: a program, not a header

constexpr std::size_t jobs = 100'000;

std::array<std::uint8_t, 16> bytes_of(std::uint64_t number) {
  std::array<std::uint8_t, 16> bytes{};
  for (std::uint8_t& byte : bytes) {
    number = number * 6364136223846793005ULL + 1442695040888963407ULL;
    byte = static_cast<std::uint8_t>(number >> 56U);
  }
  return bytes;
}

/// A book of jobs with an opening, an appliance, a sign, a reading and mostly a closing each; made once.
class LargeBook {
 public:
  LargeBook() {
    std::string name = "/tmp/ohmwright-bench-XXXXXX";
    folder_ = ::mkdtemp(name.data());
    job::JobBook book(path(), true, {"", "bench"}, {[] { return std::int64_t{0}; }, [] { return bytes_of(0); }});
    std::vector<job::MovedEntry> entries;
    std::uint64_t drawn = 0;
    for (std::size_t i = 0; i < jobs; ++i) {
      const std::string of = job::identifier_of(bytes_of(++drawn));
      const auto add = [&](job::EntryForm form, const std::string& content) {
        const std::string time = job::time_text(1'600'000'000'000 + static_cast<std::int64_t>(i) * 60'000 +
                                                static_cast<std::int64_t>(entries.size() % 10));
        entries.push_back(
            {of,
             {job::identifier_of(bytes_of(++drawn)), std::string(name_of(form)), time, "", "", "bench", "", content}});
      };
      add(job::EntryForm::opened,
          job::ContentWriter().text("title", "Freezer warm, call " + std::to_string(i)).content());
      add(job::EntryForm::appliance, R"({"name":"upright-timer-bimetal-120v"})");
      add(job::EntryForm::evidence, R"({"option":"--symptom","word":"frost-whole-coil"})");
      add(job::EntryForm::reading,
          R"({"place":"heater-alone","title":"Heater","shown":"OL","word":"heater-alone=OL"})");
      if (i + 1000 < jobs) add(job::EntryForm::state, R"({"state":"repaired"})");
    }
    book.merge(entries);
  }
  ~LargeBook() { std::filesystem::remove_all(folder_); }
  LargeBook(const LargeBook&) = delete;
  LargeBook& operator=(const LargeBook&) = delete;

  std::string path() const { return folder_ + "/jobs.db"; }

 private:
  std::string folder_;
};

const LargeBook& large_book() {
  static const LargeBook book;
  return book;
}

void run(benchmark::State& state, const std::string& words) {
  const std::string command = std::string(OHMWRIGHT_PROGRAM) + " " + words + " > /dev/null";
  for (auto _ : state) {
    const int code = std::system(command.c_str());
    if (code < 0) state.SkipWithError("the program did not run");
  }
}

void start(benchmark::State& state) { run(state, "--version"); }
void list(benchmark::State& state) { run(state, "job list --book " + large_book().path()); }
void list_open(benchmark::State& state) { run(state, "job list --in-state open --book " + large_book().path()); }
void show(benchmark::State& state) { run(state, "job show 50000 --book " + large_book().path()); }
void next(benchmark::State& state) { run(state, "job next --book " + large_book().path()); }
void note(benchmark::State& state) { run(state, "job note n --book " + large_book().path()); }
BENCHMARK(start)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(list)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(list_open)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(show)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(next)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(note)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
