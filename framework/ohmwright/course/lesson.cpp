#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/course/drawn_looks.hpp>
#include <ohmwright/course/lesson.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/locate/scale.hpp>
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

/// What looks may be told to the engine beside readings: those that are there, which somebody cites who asks the owner
/// alone; and all of them.
std::array<locate::Signs, 2> signs_of(std::span<const Look> looks) {
  std::array<locate::Signs, 2> signs;
  for (const Look& look : looks) {
    if (look.seen) signs[0].symptoms.push_back({look.id, true});
    signs[1].symptoms.push_back({look.id, look.seen});
  }
  return signs;
}

/// Whether readings make a part likelier at fault than good.
bool is_condemned(const locate::Diagnosis& diagnosis) {
  constexpr double likelier_than_not = 0.5;
  return std::any_of(diagnosis.parts.begin(), diagnosis.parts.end(),
                     [](double probability) { return probability > likelier_than_not; });
}

/// Better no exercise than one whose right answer its own readings speak against.
[[noreturn]] void refuse(const std::string& title, Lesson asked_for, Lesson settled) {
  const std::string tried = "in " + std::to_string(most_attempts) + " draws";
  if (settled == Lesson::healthy)
    throw InputError("no exercise in which nothing is wrong with " + ohmwright::quoted(title) +
                     " is fair: its own readings or looks make a good part likelier at fault than good, " + tried +
                     "; add test points to the appliance's file, name a better --meter, or take another lesson");
  throw InputError("no " + std::string(name_of(asked_for)) + " of " + ohmwright::quoted(title) +
                   " can be told by its test points and not by looks alone, " + tried +
                   "; add test points to the appliance's file, or take another lesson");
}

/// How far what can be found out speaks for the truth, at the least.
struct Standing {
  double probability = 1.0;  ///< of these parts alone
  bool is_fair = true;       ///< whether they are told; of what is good, whether no part is made likelier at fault
};

/// By all readings, without its looks and with them: a noise that is really there, of a bearing that no reading shows,
/// must not make fools of those who found every reading good, and doubters of those who found what is wrong.
Standing standing_of(const std::vector<std::size_t>& parts, Reasoning& reasoning,
                     std::span<const locate::TakenReading> readings, std::span<const Look> looks) {
  Standing standing;
  const auto take = [&](const locate::Signs& signs) {
    const locate::Diagnosis diagnosis = reasoning.after(readings, signs);
    standing.probability = std::min(standing.probability, reasoning.probability_of(diagnosis, parts));
    const bool is_told = parts.empty() ? !is_condemned(diagnosis) : reasoning.is_told(diagnosis, parts);
    standing.is_fair = standing.is_fair && is_told;
  };
  take({});
  if (looks.empty() || !(standing.is_fair || parts.empty())) return standing;
  for (const locate::Signs& signs : signs_of(looks)) take(signs);
  return standing;
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

void refuse_meter_that_cannot_read(const Meter& meter, const Appliance& appliance, Lesson lesson) {
  std::set<Probe> asked{Probe::ohms};
  if (lesson != Lesson::one_part)
    for (const TestPoint& point : appliance.test_points) asked.insert(point.probe);
  for (const Probe probe : asked)
    if (function_for(meter, locate::dimension_of(probe)) == nullptr)
      throw InputError("the meter " + ohmwright::quoted(meter.title) + " reads no " +
                       std::string(probe == Probe::ohms    ? "ohms"
                                   : probe == Probe::volts ? "volts"
                                                           : "amperes") +
                       ", which these exercises ask for; leave --meter away for the basic one, or name another");
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
  refuse_meter_that_cannot_read(*meter_, *appliance_, order.lesson);
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
  const auto with_its_name = [&](MadeExercise made) {
    made.truth.lesson = lesson;
    DrawStream owner = secret_->draws("complaint", order.index);
    if (!bench.on_the_table)
      made.exercise.complaint = drawn_complaint(bench.appliance, made.truth.faults, made.exercise.looks, owner);
    made.truth.exercise = made.exercise.name = secret_->name(order.index);
    return made;
  };
  for (std::size_t attempt = 0; attempt < most_attempts; ++attempt) {
    const locate::Candidate* truth = drawn_truth(faults, lesson, draws);
    if (truth == nullptr) break;
    const DrawnBench drawn(bench, faults, *truth, draws);
    const DrawnMeter meter(*meter_, draws);
    MadeExercise made{empty_exercise(bench, faults, *meter_), {}};
    made.truth.faults = faults_of(faults, *truth);
    for (const std::uint16_t fault : truth->faults) made.truth.names.push_back(faults.name(fault));
    const std::vector<std::size_t> parts = parts_of(made.truth.faults);
    draw_looks(faults, *truth, draws, made.exercise.looks);
    if (are_told_by_looks(reasoning, made.exercise.looks, parts)) continue;
    const std::vector<locate::TakenReading> readings =
        drawn_readings(bench, drawn, meter, all, comes_and_goes(faults, *truth), draws, made.exercise);
    const Standing standing = standing_of(parts, reasoning, readings, made.exercise.looks);
    made.truth.tellable = to_a_millionth(standing.probability);
    if (standing.is_fair) return with_its_name(std::move(made));
  }
  refuse(bench.appliance.title, order.lesson, lesson);
}

}  // namespace ohmwright::course
