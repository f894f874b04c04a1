#include <algorithm>
#include <set>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/feedback.hpp>
#include <ohmwright/course/grade.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/replay.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/locate/next_step.hpp>

namespace ohmwright::course {

namespace {

constexpr double cost_of_a_good_part = 0.5;
constexpr double cost_of_a_hazard = 0.25;
/// Of a healthy appliance no reading may show that nothing is wrong.
constexpr double least_needed = 0.01;

std::vector<std::size_t> parts_named(const Bench& bench, const Entry& answer) {
  std::vector<std::size_t> parts;
  for (const std::string& name : answer.named)
    for (std::size_t i = 0; i < bench.appliance.parts.size(); ++i)
      if (bench.appliance.parts[i].id == name.substr(0, name.find('.'))) parts.push_back(i);
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  return parts;
}

double share_found(const std::vector<std::size_t>& truth, const std::vector<std::size_t>& named) {
  if (truth.empty()) return named.empty() ? 1.0 : 0.0;
  const auto found = std::count_if(truth.begin(), truth.end(), [&](std::size_t part) {
    return std::find(named.begin(), named.end(), part) != named.end();
  });
  return static_cast<double>(found) / static_cast<double>(truth.size());
}

double safety_of(const std::vector<std::string>& hazards) {
  if (std::find(hazards.begin(), hazards.end(), ohms_on_live) != hazards.end()) return 0.0;
  return std::max(0.0, 1.0 - cost_of_a_hazard * static_cast<double>(hazards.size()));
}

double total_of(const Marks& marks, const MarkWeights& weights) {
  const double sum = weights.right_part + weights.good_parts + weights.safety + weights.confidence + weights.inference +
                     weights.minutes;
  if (!(sum > 0.0)) return 0.0;
  const double of_parts = weights.right_part * marks.right_part + weights.good_parts * marks.good_parts;
  const double of_manner = weights.safety * marks.safety + weights.minutes * marks.minutes;
  const double of_thought = weights.confidence * marks.confidence + weights.inference * marks.inference;
  return 100.0 * (of_parts + of_manner + of_thought) / sum;
}

/// What the first `count` entries tell.
Told told_by(const Bench& bench, const Exercise& exercise, const Record& record, std::size_t count) {
  Told told;
  const std::vector<bool> live = plugged_in(record);
  for (std::size_t i = 0; i < count; ++i) add_told(bench, exercise, record.entries[i], live[i], told);
  return told;
}

/// Whether the engine holds one set of parts for decided.
bool is_decided(const Reasoning& reasoning, const locate::Diagnosis& diagnosis) {
  const std::vector<locate::AnswerSet> sets = locate::answers(reasoning.faults(), diagnosis);
  return !sets.empty() && !sets.front().parts.empty() && sets.front().probability >= decided_probability;
}

/// An entry that turned the readings from undecided to decided, found by halving: what decides mostly stays decided.
/// All entries together decide.
std::size_t deciding_entry(Reasoning& reasoning, const Bench& bench, const Exercise& exercise, const Record& record) {
  std::size_t undecided = 0;
  std::size_t decided = record.entries.size();
  while (decided - undecided > 1) {
    const std::size_t middle = undecided + (decided - undecided) / 2;
    const Told told = told_by(bench, exercise, record, middle);
    const bool is_so = !told.readings.empty() && is_decided(reasoning, reasoning.after(told.readings, told.looks));
    (is_so ? decided : undecided) = middle;
  }
  return decided - 1;
}

}  // namespace

/// A bench of the key's appliance, and what the engine has worked out for it.
struct Grader::Station {
  Station(Bench made, const Meter& meter) : bench(std::move(made)), reasoning(bench, meter) {}
  Bench bench;
  Reasoning reasoning;
};

MarkWeights read_weights(const Document& document) {
  refuse_if_any(document.file, course_weights_schema().problems(document.root));
  MarkWeights weights;
  const auto take = [&](const char* name, double& weight) { weight = number_of(document.root, name).value_or(weight); };
  take("right_part", weights.right_part);
  take("good_parts", weights.good_parts);
  take("safety", weights.safety);
  take("confidence", weights.confidence);
  take("inference", weights.inference);
  take("minutes", weights.minutes);
  take("expected_minutes", weights.expected_minutes);
  return weights;
}

Grader::Grader(CourseKey key, const Registry& registry, const MarkWeights& weights)
    : key_(std::move(key)),
      weights_(weights),
      appliance_(
          read_appliance(parse_document(key_.appliance_text, "the key's appliance", course_limits()), registry)) {}

Grader::~Grader() = default;

Grader::Station& Grader::station_of(const MadeExercise& made) {
  std::unique_ptr<Station>& kept = stations_[made.truth.table_part];
  if (!kept)
    kept = std::make_unique<Station>(
        made.truth.table_part ? table_of(appliance_, *made.truth.table_part) : bench_of(appliance_), key_.meter);
  return *kept;
}

Graded Grader::grade(const Record& record, const std::string& file) {
  Graded graded;
  graded.file = file;
  graded.exercise = record.entries.front().subject;
  graded.students = record.entries.front().students;
  const auto made = std::find_if(key_.exercises.begin(), key_.exercises.end(),
                                 [&](const MadeExercise& one) { return one.truth.exercise == graded.exercise; });
  if (made == key_.exercises.end()) {
    graded.refused = "the key knows no exercise " + graded.exercise;
    return graded;
  }
  const Replay replay = replay_of(made->exercise, record);
  graded.minutes = replay.minutes;
  const std::string file_hash = sha256_text(exercise_text(made->exercise));
  graded.was_edited = record.broken_at || replay.differs_at || record.entries.front().file != file_hash;
  if (replay.answer == nullptr) {
    graded.refused = "no answer was given";
    return graded;
  }
  const Entry& answer = *replay.answer;
  if (!answer.students.empty()) graded.students = answer.students;
  graded.confidence = answer.confidence;
  Station& station = station_of(*made);
  const std::vector<std::size_t> truth = parts_of(made->truth.faults);
  const std::vector<std::size_t> named = parts_named(station.bench, answer);
  Told cited;
  const std::vector<bool> live = plugged_in(record);
  std::set<std::size_t> because(answer.because.begin(), answer.because.end());
  for (const std::size_t number : because)
    if (number < record.entries.size())
      add_told(station.bench, made->exercise, record.entries[number], live[number], cited);
  const bool is_right = named == truth;
  const double needed = is_right ? std::min(decided_probability, made->truth.tellable) : decided_probability;
  const Told all = told_by(station.bench, made->exercise, record, record.entries.size());
  const locate::Diagnosis by_all = station.reasoning.after(all.readings, all.looks);
  const bool cites_all =
      cited.readings.size() == all.readings.size() && cited.looks.symptoms.size() == all.looks.symptoms.size();
  if (!cited.readings.empty())
    graded.followed = station.reasoning.probability_of(
        cites_all ? by_all : station.reasoning.after(cited.readings, cited.looks), named);
  graded.marks.right_part = share_found(truth, named);
  const auto condemned = std::count_if(named.begin(), named.end(), [&](std::size_t part) {
    return std::find(truth.begin(), truth.end(), part) == truth.end();
  });
  graded.marks.good_parts = std::max(0.0, 1.0 - cost_of_a_good_part * static_cast<double>(condemned));
  graded.marks.safety = safety_of(replay.hazards);
  const double miss = answer.confidence - (is_right ? 1.0 : 0.0);
  graded.marks.confidence = 1.0 - miss * miss;
  graded.marks.inference = std::min(1.0, graded.followed / std::max(needed, least_needed));
  graded.marks.minutes = graded.minutes > 0.0 ? std::min(1.0, weights_.expected_minutes / graded.minutes) : 1.0;
  graded.total = graded.was_edited ? 0.0 : total_of(graded.marks, weights_);
  if (!all.readings.empty() && is_decided(station.reasoning, by_all))
    graded.decided_at = deciding_entry(station.reasoning, station.bench, made->exercise, record);
  const std::optional<std::size_t> edited_at = record.broken_at ? record.broken_at : replay.differs_at;
  graded.words = feedback({graded, *made, station.bench, record, answer, replay, named, truth, edited_at});
  return graded;
}

}  // namespace ohmwright::course
