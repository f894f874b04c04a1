#include <algorithm>
#include <set>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/feedback.hpp>
#include <ohmwright/course/grade.hpp>
#include <ohmwright/course/named_faults.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/course/replay.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/locate/standing.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_words.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

constexpr double cost_of_a_good_part = 0.5;
constexpr double cost_of_a_hazard = 0.25;
/// Of a healthy appliance no reading may show that nothing is wrong.
constexpr double least_needed = 0.01;

constexpr double worth_of_a_part_misnamed = 0.5;

std::vector<std::size_t> parts_named(const Bench& bench, const std::vector<std::string>& names) {
  std::vector<std::size_t> parts;
  for (const std::string& name : names)
    for (std::size_t i = 0; i < bench.appliance.parts.size(); ++i)
      if (bench.appliance.parts[i].id == name.substr(0, name.find('.'))) parts.push_back(i);
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  return parts;
}

bool contains(const std::vector<std::size_t>& parts, std::size_t part) {
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

double part_mark(const std::vector<std::size_t>& truth, const std::vector<std::size_t>& named,
                 const std::vector<std::size_t>& misnamed) {
  if (truth.empty() && named.empty()) return 1.0;
  double found = 0.0;
  for (const std::size_t part : truth)
    if (contains(named, part)) found += contains(misnamed, part) ? worth_of_a_part_misnamed : 1.0;
  return found / static_cast<double>(std::max(truth.size(), named.size()));
}

double good_parts_mark(const std::vector<std::size_t>& truth, const std::vector<std::size_t>& named) {
  const auto condemned =
      std::count_if(named.begin(), named.end(), [&](std::size_t part) { return !contains(truth, part); });
  return std::max(0.0, 1.0 - cost_of_a_good_part * static_cast<double>(condemned));
}

bool was_stopped(const Replay& replay) {
  return std::find(replay.hazards.begin(), replay.hazards.end(), ohms_on_live) != replay.hazards.end();
}

std::optional<double> safety_mark(const Replay& replay) {
  if (!replay.has_measured) return std::nullopt;
  if (was_stopped(replay)) return 0.0;
  return std::max(0.0, 1.0 - cost_of_a_hazard * static_cast<double>(replay.hazards.size()));
}

/// What the other marks count for who has no safety left, and for who never measured: a guess that happens to be right
/// is no pass, and a right answer got by what may kill is less (ours).
constexpr double share_of_unsafe = 0.25;
constexpr double share_of_a_guess = 0.5;

double total_of(const Marks& marks, const MarkWeights& weights) {
  const double of_safety = marks.safety ? weights.safety : 0.0;
  const double sum =
      weights.part + weights.good_parts + of_safety + weights.confidence + weights.inference + weights.minutes;
  if (!(sum > 0.0)) return 0.0;
  const double of_parts = weights.part * marks.part + weights.good_parts * marks.good_parts;
  const double of_manner = of_safety * marks.safety.value_or(0.0) + weights.minutes * marks.minutes;
  const double of_thought = weights.confidence * marks.confidence + weights.inference * marks.inference;
  const bool was_unsafe = marks.safety && weights.safety > 0.0 && !(*marks.safety > 0.0);
  const double share = was_unsafe ? share_of_unsafe : marks.safety ? 1.0 : share_of_a_guess;
  return share * 100.0 * (of_parts + of_manner + of_thought) / sum;
}

/// What the first `count` entries tell.
Told told_by(const Bench& bench, const Exercise& exercise, const Record& record, std::size_t count) {
  Told told;
  const std::vector<bool> live = plugged_in(exercise, record);
  for (std::size_t i = 0; i < count; ++i) add_told(bench, exercise, record.entries[i], live[i], told);
  return told;
}

/// What the entries that an answer cites tell; numbers that no entry has tell nothing.
Told told_by_cited(const Bench& bench, const Exercise& exercise, const Record& record, const Entry& answer) {
  Told told;
  const std::vector<bool> live = plugged_in(exercise, record);
  for (const std::size_t number : std::set<std::size_t>(answer.because.begin(), answer.because.end()))
    if (number < record.entries.size()) add_told(bench, exercise, record.entries[number], live[number], told);
  return told;
}

/// What the student was told to read out: at each stop, and at the answer.
std::vector<std::string> check_words_of(const Record& record) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < record.entries.size(); ++i) {
    const std::vector<std::string>& hazards = record.entries[i].hazards;
    const bool stops = std::find(hazards.begin(), hazards.end(), ohms_on_live) != hazards.end();
    if (stops || record.entries[i].action == "answer") words.push_back(check_word(record.hashes[i]));
  }
  return words;
}

/// Who worked on a record: at its start, later, and at the answer, each once.
std::vector<std::string> students_of(const Record& record) {
  std::vector<std::string> all;
  for (const Entry& entry : record.entries)
    for (const std::string& student : entry.students)
      if (std::find(all.begin(), all.end(), student) == all.end()) all.push_back(student);
  return all;
}

/// Whether the engine holds one set of parts for decided, or that none is at fault.
bool is_decided(const Reasoning& reasoning, const locate::Diagnosis& diagnosis) {
  const std::vector<locate::AnswerSet> sets = locate::answers(reasoning.faults(), diagnosis);
  if (sets.empty()) return false;
  if (sets.front().parts.empty()) return reasoning.probability_of(diagnosis, {}) >= decided_probability;
  return reasoning.is_told(diagnosis, sets.front().parts);
}

/// The likeliest set of parts after each reading and look, as a line.
std::vector<std::string> time_line_of(Reasoning& reasoning, const Bench& bench, const Exercise& exercise,
                                      const Record& record) {
  const Sentences say{UnitPreferences{}};
  const std::vector<bool> live = plugged_in(exercise, record);
  std::vector<std::string> lines;
  Told told;
  for (std::size_t i = 0; i < record.entries.size(); ++i) {
    const Entry& entry = record.entries[i];
    const std::size_t before = told.readings.size() + told.looks.symptoms.size();
    add_told(bench, exercise, entry, live[i], told);
    if (told.readings.size() + told.looks.symptoms.size() == before) continue;
    const locate::Diagnosis diagnosis = reasoning.after(told.readings, told.looks);
    const std::vector<locate::AnswerSet> sets = locate::answers(reasoning.faults(), diagnosis);
    if (sets.empty()) continue;
    std::vector<std::string> titles;
    if (sets.front().outside_cause) titles.push_back(say(OHMWRIGHT_TEXT("a cause outside of the parts")));
    for (const std::size_t part : sets.front().parts) titles.push_back(bench.appliance.parts[part].title);
    lines.push_back(say(OHMWRIGHT_TEXT("{number} {subject}: {shown}. Likeliest now: {parts}, {probability}."),
                        {{"number", std::to_string(i)},
                         {"subject", place_in_words(entry)},
                         {"shown", shown_in_words(entry, say)},
                         {"parts", titles.empty() ? say(OHMWRIGHT_TEXT("nothing")) : listed(titles)},
                         {"probability", percent_text(sets.front().probability)}}));
  }
  return lines;
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
  refuse_if_any(document.file, course_weights_schema().problems(document));
  MarkWeights weights;
  const auto take = [&](const char* name, double& weight) { weight = number_of(document.root, name).value_or(0.0); };
  take("part", weights.part);
  take("good_parts", weights.good_parts);
  take("safety", weights.safety);
  take("confidence", weights.confidence);
  take("inference", weights.inference);
  take("minutes", weights.minutes);
  weights.expected_minutes = number_of(document.root, "expected_minutes").value_or(weights.expected_minutes);
  if (!(weights.part + weights.good_parts + weights.safety + weights.confidence + weights.inference + weights.minutes >
        0.0))
    throw DocumentError(document.file,
                        {document.root.problem("no mark has a weight; give at least one, \"part\": 60")});
  return weights;
}

double confidence_mark(double confidence, bool is_right, std::size_t answers) {
  const auto others = static_cast<double>(answers - 1);
  const double each = (1.0 - confidence) / others;
  const double score = is_right ? (1.0 - confidence) * (1.0 - confidence) + others * each * each
                                : confidence * confidence + (1.0 - each) * (1.0 - each) + (others - 1.0) * each * each;
  return 1.0 - score / 2.0;
}

double inference_mark(double before, double after, double needed) {
  constexpr double least_gain = 0.01;  // less there is not to be had: what stands at the end stood at the beginning
  if (needed - before < least_gain) return after >= needed ? 1.0 : 0.0;
  return std::clamp((after - before) / (needed - before), 0.0, 1.0);
}

Grader::Grader(CourseKey key, const Registry& registry, const MarkWeights& weights)
    : key_(std::move(key)),
      weights_(weights),
      appliance_(in_readers_words(read_appliance(
          parse_document_to_check(key_.appliance_text, "the key's appliance", course_limits()), registry))) {}

Grader::~Grader() = default;

Grader::Station& Grader::station_of(const MadeExercise& made) {
  std::unique_ptr<Station>& kept = stations_[made.truth.table_part];
  if (!kept)
    kept = std::make_unique<Station>(
        made.truth.table_part ? table_of(appliance_, *made.truth.table_part) : bench_of(appliance_), key_.meter);
  return *kept;
}

const MadeExercise* Grader::made_for(const std::string& exercise) const {
  const auto made = std::find_if(key_.exercises.begin(), key_.exercises.end(),
                                 [&](const MadeExercise& one) { return one.truth.exercise == exercise; });
  return made == key_.exercises.end() ? nullptr : &*made;
}

/// The marks of an answer that the engine has thought about.
Marks Grader::marks_of(const Station& station, const MadeExercise& made, const Replay& replay,
                       const Graded& graded) const {
  const std::vector<std::size_t> truth = parts_of(made.truth.faults);
  const std::vector<std::size_t> named = parts_named(station.bench, replay.answer->named);
  const bool is_right = named == truth && graded.misnamed.empty();
  Marks marks;
  marks.part = part_mark(truth, named, parts_named(station.bench, graded.misnamed));
  marks.good_parts = good_parts_mark(truth, named);
  marks.safety = safety_mark(replay);
  marks.confidence = confidence_mark(replay.answer->confidence, is_right, made.exercise.parts.size() + 1);
  marks.inference = graded.marks.inference;
  marks.minutes = replay.minutes > 0.0 ? std::min(1.0, weights_.expected_minutes / replay.minutes) : 1.0;
  return marks;
}

/// What the engine makes of the readings: of those cited for the answer, and of all for what they decided.
void Grader::reason(Station& station, const MadeExercise& made, const Record& record, const Replay& replay,
                    Graded& graded) {
  Reasoning& reasoning = station.reasoning;
  const Entry& answer = *replay.answer;
  const std::vector<std::size_t> named = parts_named(station.bench, answer.named);
  const Told cited = told_by_cited(station.bench, made.exercise, record, answer);
  const Told all = told_by(station.bench, made.exercise, record, record.entries.size());
  const locate::Diagnosis by_all = reasoning.after(all.readings, all.looks);
  const bool cites_all =
      cited.readings.size() == all.readings.size() && cited.looks.symptoms.size() == all.looks.symptoms.size();
  const locate::Diagnosis by_nothing = reasoning.after({}, {});
  graded.readings_cited = cited.readings.size();
  if (!cited.readings.empty()) {
    const locate::Diagnosis by_cited = cites_all ? by_all : reasoning.after(cited.readings, cited.looks);
    // A fault that the cited readings rule out does not follow from them, though its part may.
    const double most = ruled_out(reasoning, by_nothing, by_cited, answer.named).empty()
                            ? 1.0
                            : probability_of_faults(reasoning, by_cited, answer.named);
    graded.followed = std::min(most, reasoning.probability_of(by_cited, named));
    const double alone = named.empty() ? decided_probability : least_tellable;
    const bool is_right = named == parts_of(made.truth.faults);
    const double needed = std::max(least_needed, is_right ? std::min(alone, made.truth.tellable) : alone);
    graded.marks.inference = std::min(
        inference_mark(reasoning.probability_of(by_nothing, named), graded.followed, needed),
        inference_mark(reasoning.probability_of_at_least(by_nothing, named),
                       std::min(most, reasoning.probability_of_at_least(by_cited, named)), decided_probability));
  }
  if (all.readings.empty()) return;
  graded.misnamed = ruled_out(reasoning, by_nothing, by_all, answer.named);
  std::erase_if(graded.misnamed, [&](const std::string& name) {
    return std::find(made.truth.names.begin(), made.truth.names.end(), name) != made.truth.names.end();
  });
  if (is_decided(reasoning, by_all))
    graded.decided_at = deciding_entry(reasoning, station.bench, made.exercise, record);
}

Graded Grader::grade(const Record& record, const std::string& file, bool with_time_line) {
  Graded graded;
  graded.file = file;
  graded.exercise = record.entries.front().subject;
  graded.students = students_of(record);
  graded.links = record.hashes;
  graded.check_words = check_words_of(record);
  const Sentences say{UnitPreferences{}};
  const MadeExercise* made = made_for(graded.exercise);
  if (made == nullptr) {
    graded.refused = say(OHMWRIGHT_TEXT("the key knows no exercise {exercise}"), {{"exercise", graded.exercise}});
    return graded;
  }
  const Replay replay = replay_of(made->exercise, record);
  graded.minutes = replay.minutes;
  const std::string file_hash = sha256_text(exercise_text(made->exercise));
  graded.was_edited = record.broken_at || replay.differs_at || record.entries.front().file != file_hash;
  graded.was_stopped = was_stopped(replay);
  if (replay.answer == nullptr) {
    if (graded.was_stopped) {
      graded.marks.safety = 0.0;
      graded.words.push_back(say(hazard_text(ohms_on_live)));
    }
    graded.refused = say(OHMWRIGHT_TEXT("not answered: unfinished, or cut short after entry {number}"),
                         {{"number", std::to_string(record.entries.size() - 1)}});
    return graded;
  }
  graded.confidence = replay.answer->confidence;
  Station& station = station_of(*made);
  const std::vector<std::size_t> named = parts_named(station.bench, replay.answer->named);
  reason(station, *made, record, replay, graded);
  graded.marks = marks_of(station, *made, replay, graded);
  if (with_time_line && !graded.was_edited)
    graded.time_line = time_line_of(station.reasoning, station.bench, made->exercise, record);
  graded.total = graded.was_edited ? 0.0 : total_of(graded.marks, weights_);
  const std::optional<std::size_t> edited_at = record.broken_at ? record.broken_at : replay.differs_at;
  graded.words = feedback(
      {graded, *made, station.bench, record, *replay.answer, replay, named, parts_of(made->truth.faults), edited_at});
  return graded;
}

}  // namespace ohmwright::course
