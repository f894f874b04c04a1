#include <algorithm>
#include <utility>

#include <ohmwright/locate/answer_classes.hpp>
#include <ohmwright/locate/plan.hpp>

namespace ohmwright::locate {

namespace {

class Planner {
 public:
  Planner(Search& search, const PlanSettings& settings) : search_(search), settings_(settings) {}

  Plan make() {
    add_place(settings_.depth, 1.0);
    search_.think();
    return std::move(plan_);
  }

 private:
  std::size_t add_place(std::size_t depth, double reached) {
    search_.think();
    const Standing& standing = search_.standing();
    const std::size_t index = plan_.places.size();
    plan_.places.push_back(
        {reached,
         standing,
         likeliest_candidate(search_.reasoner().faults(), search_.diagnosis(), standing.parts, standing.outside_cause),
         search_.work(),
         {},
         {}});
    const std::optional<Step> step = next_step();
    const bool goes_on =
        standing.form == Standing::Form::open && step && depth > 0 && reached >= settings_.least_reached;
    if (!goes_on) {
      const bool is_over = standing.form == Standing::Form::likely || standing.form == Standing::Form::settled ||
                           standing.form == Standing::Form::sealed_system;
      if (is_over) plan_.named += reached;
      return index;
    }
    plan_.minutes += reached * step->minutes;
    plan_.places[index].step = step;
    std::vector<PlanAnswer> answers = step->form == Step::Form::measure ? readings_of(*step) : looks_of(*step);
    for (PlanAnswer& answer : answers) follow(*step, answer, depth - 1, reached * answer.probability);
    plan_.places[index].answers = std::move(answers);
    return index;
  }

  std::optional<Step> next_step() const {
    const auto found = std::find_if(search_.steps().begin(), search_.steps().end(),
                                    [](const Step& step) { return step.form != Step::Form::replace; });
    return found == search_.steps().end() ? std::nullopt : std::optional(*found);
  }

  std::vector<PlanAnswer> readings_of(const Step& step) {
    std::vector<PlanAnswer> answers;
    for (const AnswerClass& row : answer_classes(search_.reasoner(), step.measurement, settings_.width))
      answers.push_back({PlanAnswer::Form::reading, row.readings, row.probability, 0});
    return answers;
  }

  std::vector<PlanAnswer> looks_of(const Step& step) const {
    const double is_it = probability_of_look(search_.reasoner().faults(), search_.diagnosis(), step.subject);
    const SignModel& model = search_.settings().signs;
    const double found = is_it * model.found_if(true) + (1.0 - is_it) * model.found_if(false);
    return {{PlanAnswer::Form::yes, {}, found, 0}, {PlanAnswer::Form::no, {}, 1.0 - found, 0}};
  }

  void follow(const Step& step, PlanAnswer& answer, std::size_t depth, double reached) {
    if (step.form == Step::Form::measure) {
      search_.add({step.measurement, OverRange{}, {}, {}, answer.readings});
      answer.next = add_place(depth, reached);
      search_.take_back();
      return;
    }
    search_.signs().looked_at.push_back({step.subject, answer.form == PlanAnswer::Form::yes});
    answer.next = add_place(depth, reached);
    search_.signs().looked_at.pop_back();
  }

  Search& search_;
  const PlanSettings& settings_;
  Plan plan_;
};

}  // namespace

Plan make_plan(Search& search, const PlanSettings& settings) { return Planner(search, settings).make(); }

}  // namespace ohmwright::locate
