#include "students.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/replay.hpp>
#include <ohmwright/locate/standing.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::course::testing {

namespace {

/// A student at the bench, whose every act goes into the record.
class Student {
 public:
  Student(const MadeExercise& made, const Bench& bench) : made_(made), bench_(bench), practice_(made.exercise) {
    Entry start{.action = "start"};
    start.subject = made.exercise.name;
    start.file = sha256_text(exercise_text(made.exercise));
    start.session = random_word();
    act(start);
  }

  Entry act(const Entry& wish) {
    const Entry done = practice_.perform(wish);
    text_ += record_line(done, text_);
    return done;
  }
  void act(const std::string& line) { act(wish_in(line)); }

  void read(const std::string& point, const std::string& set_up, const std::string& leads) {
    Entry wish{.action = "measure"};
    wish.subject = point;
    wish.set_up = set_up;
    wish.leads = leads;
    const std::size_t number = practice_.entries();
    const Entry done = act(wish);
    because_.push_back(number);
    add_told(bench_, made_.exercise, done, practice_.is_plugged_in(), told_);
  }

  void answer(const std::vector<std::string>& parts, double confidence) {
    Entry answer{.action = "answer"};
    answer.named = parts;
    answer.because = because_;
    answer.confidence = confidence;
    act(answer);
  }

  const Told& told() const { return told_; }
  std::string text() const { return text_; }

 private:
  const MadeExercise& made_;
  const Bench& bench_;
  Practice practice_;
  std::string text_;
  std::vector<std::size_t> because_;
  Told told_;
};

std::vector<std::size_t> shuffled(std::size_t count, ReproducibleStream& stream) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < count; ++i) {
    const auto at = static_cast<std::ptrdiff_t>(stream.below(i + 1));
    order.insert(order.begin() + at, i);
  }
  return order;
}

struct Belief {
  std::vector<std::string> parts;
  double probability = 0.0;
};

Belief belief_after(const Told& told, const Bench& bench, Reasoning& reasoning) {
  const locate::Diagnosis diagnosis = reasoning.after(told.readings, told.looks);
  Belief belief;
  for (const locate::AnswerSet& set : locate::answers(reasoning.faults(), diagnosis)) {
    if (set.parts.empty()) continue;
    belief.probability = set.probability;
    for (const std::size_t part : set.parts) belief.parts.push_back(bench.appliance.parts[part].id);
    break;
  }
  return belief;
}

/// Every point with its leads off, as found and after each set-up that needs no supply, until one answer is left.
Belief work_carefully(Student& student, const MadeExercise& made, const Bench& bench, Reasoning& reasoning,
                      ReproducibleStream& stream) {
  student.act("unplug");
  student.act("prove-dead");
  const Appliance& places = made.exercise.places;
  std::vector<std::string> set_ups{""};
  for (const SetUp& set_up : places.set_ups)
    if (!set_up.live) set_ups.push_back(set_up.id);
  Belief belief;
  for (const std::string& set_up : set_ups) {
    for (const std::size_t point : shuffled(places.test_points.size(), stream))
      if (places.test_points[point].probe == Probe::ohms)
        student.read(places.test_points[point].id, set_up, made.exercise.lifts_leads[point] ? "off" : "");
    belief = belief_after(student.told(), bench, reasoning);
    if (belief.probability >= decided_probability) break;
  }
  return belief;
}

std::string any_part(const MadeExercise& made, ReproducibleStream& stream) {
  return made.exercise.parts[stream.below(made.exercise.parts.size())].id;
}

void work_hastily(Student& student, const MadeExercise& made, const Bench& bench, Reasoning& reasoning,
                  ReproducibleStream& stream) {
  student.act("unplug");
  constexpr std::size_t enough = 3;
  std::size_t count = 0;
  const Appliance& places = made.exercise.places;
  for (const std::size_t point : shuffled(places.test_points.size(), stream))
    if (places.test_points[point].probe == Probe::ohms && count++ < enough)
      student.read(places.test_points[point].id, "", made.exercise.lifts_leads[point] ? "in" : "");
  student.answer(belief_after(student.told(), bench, reasoning).parts, 0.9);
}

/// Tries to name everything at 0 %, which the bench refuses; then as much and as little as it takes.
void scatter(Student& student, const MadeExercise& made, ReproducibleStream& stream) {
  std::vector<std::string> all;
  for (const AnswerPart& part : made.exercise.parts) all.push_back(part.id);
  EXPECT_THROW(student.answer(all, 0.5), InputError);
  const std::size_t first = stream.below(all.size());
  const std::size_t second = (first + 1 + stream.below(all.size() - 1)) % all.size();
  EXPECT_THROW(student.answer({all[first], all[second]}, 0.0), InputError);
  student.answer({all[first], all[second]}, Practice::least_confidence(made.exercise));
}

/// The first reading of the record with another digit.
std::string with_another_digit(std::string text) {
  const std::string before = "\"shown\":\"";
  for (std::size_t at = text.find(before); at != std::string::npos; at = text.find(before, at + 1)) {
    char& digit = text[at + before.size()];
    if (digit < '0' || digit > '9') continue;
    digit = digit == '9' ? '8' : static_cast<char>(digit + 1);
    return text;
  }
  return text;
}

}  // namespace

std::string record_of(Manner manner, const MadeExercise& made, const Bench& bench, Reasoning& reasoning,
                      ReproducibleStream& stream) {
  Student student(made, bench);
  switch (manner) {
    case Manner::careful:
    case Manner::editing: {
      const Belief belief = work_carefully(student, made, bench, reasoning, stream);
      const bool is_sure = belief.probability >= 0.5;
      student.answer(is_sure ? belief.parts : std::vector<std::string>{}, is_sure ? belief.probability : 0.7);
      return manner == Manner::careful ? student.text() : with_another_digit(student.text());
    }
    case Manner::hasty:
      work_hastily(student, made, bench, reasoning, stream);
      break;
    case Manner::guessing:
      student.answer({any_part(made, stream)}, 0.3);
      break;
    case Manner::scattering:
      scatter(student, made, stream);
      break;
    case Manner::unsafe:
      student.read(made.exercise.places.test_points.front().id, "", made.exercise.lifts_leads.front() ? "in" : "");
      student.answer({any_part(made, stream)}, 0.9);
      break;
  }
  return student.text();
}

}  // namespace ohmwright::course::testing
