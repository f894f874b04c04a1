#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/course/drawn_looks.hpp>
#include <ohmwright/course/lesson.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::course {

namespace {

constexpr std::array lesson_names{std::pair{Lesson::one_part, std::string_view("one-part")},
                                  std::pair{Lesson::one_fault, std::string_view("one-fault")},
                                  std::pair{Lesson::two_faults, std::string_view("two-faults")},
                                  std::pair{Lesson::healthy, std::string_view("healthy")},
                                  std::pair{Lesson::mixed, std::string_view("mixed")}};

/// So often, before the appliance is given up.
constexpr std::size_t most_attempts = 200;
/// Before the best is taken of the good benches whose own readings condemn something.
constexpr std::size_t most_good_attempts = 50;

/// What is kept of a probability and compared with: its last digits depend on the compiler.
double to_a_millionth(double probability) {
  constexpr double millionths = 1e6;
  return std::round(probability * millionths) / millionths;
}

bool comes_and_goes(const locate::FaultList& faults, const locate::Candidate& candidate) {
  return candidate.faults.size() == 1 && faults.mode(candidate.faults.front()).id == comes_and_goes_mode;
}

bool belongs(const locate::FaultList& faults, const locate::Candidate& candidate, Lesson lesson) {
  if (candidate.outside_cause) return false;
  if (lesson == Lesson::healthy) return candidate.faults.empty();
  if (lesson == Lesson::two_faults) return candidate.faults.size() == 2 || comes_and_goes(faults, candidate);
  return candidate.faults.size() == 1 && !comes_and_goes(faults, candidate);
}

/// A candidate of the lesson by its prior weight; null where there is none.
const locate::Candidate* drawn_truth(const locate::FaultList& faults, Lesson lesson, DrawStream& draws) {
  double sum = 0.0;
  for (const locate::Candidate& candidate : faults.candidates())
    if (belongs(faults, candidate, lesson)) sum += candidate.prior;
  const double share = draws.uniform();
  double left = share * sum;
  const locate::Candidate* last = nullptr;
  for (const locate::Candidate& candidate : faults.candidates()) {
    if (!belongs(faults, candidate, lesson)) continue;
    last = &candidate;
    left -= candidate.prior;
    if (left < 0.0) break;
  }
  return last;
}

Lesson settled(Lesson lesson, DrawStream& draws) {
  const double share = draws.uniform();
  if (lesson != Lesson::mixed) return lesson;
  constexpr double one_of_two = 0.5;
  constexpr double three_of_four = 0.75;
  return share < one_of_two ? Lesson::one_fault : share < three_of_four ? Lesson::two_faults : Lesson::healthy;
}

/// Fills in what each combination shows, each time, and gives what the engine is told of it: the first time alone, but
/// every time where a fault comes and goes.
std::vector<locate::TakenReading> drawn_readings(const Bench& bench, const DrawnBench& drawn, const DrawnMeter& meter,
                                                 const std::vector<Combination>& all, bool tells_repeats,
                                                 DrawStream& draws, Exercise& exercise) {
  std::vector<locate::TakenReading> readings;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Probe probe = bench.appliance.test_points[all[i].measurement.test_point].probe;
    std::vector<std::optional<double>>& shown = exercise.readings[i].second;
    for (std::optional<double>& value : shown) {
      const std::optional<double> at_probes = drawn.value_at(all[i].measurement, draws);
      value = meter.shown(probe, at_probes, draws);
    }
    readings.push_back(taken_reading(all[i], probe, shown.front()));
    if (tells_repeats)
      for (std::size_t again = 1; again < shown.size(); ++again)
        readings.push_back(taken_reading(all[i], probe, shown[again]));
  }
  return readings;
}

/// Whether readings make a part likelier at fault than good.
bool is_condemned(const locate::Diagnosis& diagnosis) {
  constexpr double likelier_than_not = 0.5;
  return std::any_of(diagnosis.parts.begin(), diagnosis.parts.end(),
                     [](double probability) { return probability > likelier_than_not; });
}

}  // namespace

std::string_view name_of(Lesson lesson) {
  return std::find_if(lesson_names.begin(), lesson_names.end(), [&](const auto& row) { return row.first == lesson; })
      ->second;
}

Lesson lesson_named(const std::string& name) {
  std::vector<std::string> known;
  for (const auto& [lesson, of_lesson] : lesson_names) {
    if (of_lesson == name) return lesson;
    known.emplace_back(of_lesson);
  }
  throw InputError("there is no lesson " + ohmwright::quoted(name) + did_you_mean(name, known) +
                   "; there are: " + listed(known));
}

Workshop::Workshop(const Appliance& appliance, const Meter& meter, const CourseSecret& secret)
    : appliance_(&appliance), meter_(&meter), secret_(&secret) {}

Workshop::Station& Workshop::station(std::optional<std::size_t> table_part) {
  std::unique_ptr<Station>& kept = stations_[table_part];
  if (!kept)
    kept = std::make_unique<Station>(table_part ? table_of(*appliance_, *table_part) : bench_of(*appliance_), *meter_);
  return *kept;
}

MadeExercise Workshop::make(const Order& order) {
  DrawStream draws = secret_->draws("lesson", order.index);
  const Lesson lesson = settled(order.lesson, draws);
  if (lesson != Lesson::one_part) return make_at(station({}), lesson, order);
  std::size_t part = order.part.value_or(0);
  if (!order.part) {  // the part that lies there is drawn like a fault, so that what often fails is often practised
    const locate::FaultList faults(*appliance_, {});
    const locate::Candidate* truth = drawn_truth(faults, Lesson::one_fault, draws);
    if (truth == nullptr) throw InputError("the appliance has no part that can fail; name one with --part");
    part = faults.faults()[truth->faults.front()].fault.part;
  }
  const double share = draws.uniform();
  MadeExercise made = make_at(station(part), share < good_on_the_table ? Lesson::healthy : Lesson::one_fault, order);
  made.truth.lesson = Lesson::one_part;
  made.truth.table_part = part;
  return made;
}

MadeExercise Workshop::make_at(Station& station, Lesson lesson, const Order& order) const {
  const Bench& bench = station.bench;
  Reasoning& reasoning = station.reasoning;
  const locate::FaultList& faults = reasoning.faults();
  const std::vector<Combination> all = combinations(bench);
  DrawStream draws = secret_->draws("bench", order.index);
  std::optional<MadeExercise> best;  // of the good ones whose own readings condemn something
  const auto with_its_name = [&](MadeExercise made) {
    made.truth.lesson = lesson;
    DrawStream owner = secret_->draws("complaint", order.index);
    if (!bench.on_the_table) made.exercise.complaint = drawn_complaint(made.exercise.looks, owner);
    made.truth.exercise = made.exercise.name = secret_->name(order.index);
    return made;
  };
  for (std::size_t attempt = 0; attempt < most_attempts; ++attempt) {
    if (best && attempt >= most_good_attempts) return with_its_name(std::move(*best));
    const locate::Candidate* truth = drawn_truth(faults, lesson, draws);
    if (truth == nullptr) break;
    const DrawnBench drawn(bench, faults, *truth, draws);
    const DrawnMeter meter(*meter_, draws);
    MadeExercise made{empty_exercise(bench, faults, *meter_), {}};
    for (const std::uint16_t fault : truth->faults) {
      made.truth.faults.push_back(faults.faults()[fault].fault);
      made.truth.names.push_back(faults.name(fault));
    }
    const std::vector<std::size_t> parts = parts_of(made.truth.faults);
    draw_looks(faults, *truth, draws, made.exercise.looks);
    if (are_told_by_looks(reasoning, made.exercise.looks, parts)) continue;
    const std::vector<locate::TakenReading> readings =
        drawn_readings(bench, drawn, meter, all, comes_and_goes(faults, *truth), draws, made.exercise);
    const locate::Diagnosis diagnosis = reasoning.after(readings, {});
    made.truth.tellable = to_a_millionth(reasoning.probability_of(diagnosis, parts));
    if (lesson == Lesson::healthy && is_condemned(diagnosis)) {
      if (!best || best->truth.tellable < made.truth.tellable) best = std::move(made);
      continue;
    }
    if (lesson != Lesson::healthy && !reasoning.is_told(diagnosis, parts)) continue;
    return with_its_name(std::move(made));
  }
  if (best) return with_its_name(std::move(*best));
  throw InputError(
      "no " + std::string(name_of(order.lesson)) + " of " + ohmwright::quoted(bench.appliance.title) +
      " can be told by its test points and not by looks alone; add test points to the appliance's file, or take "
      "another lesson");
}

}  // namespace ohmwright::course
