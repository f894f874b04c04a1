#include <algorithm>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/report/search_in_words.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t looked_through = 400;

}  // namespace

SearchInWords::SearchInWords(const LocateReport& of, const Sentences& in)
    : report(of),
      say(in),
      faults(of.reasoner.faults()),
      appliance(faults.appliance()),
      answers(locate::answers(faults, of.diagnosis)),
      named{of.standing.parts, of.standing.outside_cause, of.standing.probability},
      likeliest_ways(of.reasoner.likeliest(looked_through)) {}

std::string SearchInWords::label(const locate::AnswerSet& answer) const {
  return answer_label(faults, report.diagnosis, answer, say);
}

std::string SearchInWords::label_with_share(const locate::AnswerSet& answer) const {
  constexpr double nearly_all = 0.8;
  const double own = report.diagnosis.candidates[likeliest_candidate_of(answer)];
  if (own >= nearly_all * answer.probability) return label(answer);
  return say(OHMWRIGHT_TEXT("{fault} ({chance}), or another of its faults"),
             {{"fault", label(answer)}, {"chance", percent_text(own)}});
}

std::string SearchInWords::label_of_the_sure(const locate::AnswerSet& answer) const {
  constexpr double nearly_all = 0.8;
  if (answer.parts.empty() || is_mostly_one_fault(answer, nearly_all)) return label(answer);
  std::string all;
  const auto add = [&](const std::string& title) {
    all = all.empty() ? title : say(OHMWRIGHT_TEXT("{one}; and {other}"), {{"one", all}, {"other", title}});
  };
  if (answer.outside_cause) add(appliance.outside_causes[*answer.outside_cause].title);
  for (const std::size_t part : answer.parts) add(appliance.parts[part].title);
  return all;
}

/// Whether the parts have the faults of the likeliest set in most of all sets that hold them.
bool SearchInWords::is_mostly_one_fault(const locate::AnswerSet& answer, double nearly_all) const {
  const locate::Candidate& likeliest = faults.candidates()[likeliest_candidate_of(answer)];
  double with_these = 0.0;
  double with_any = 0.0;
  for (std::size_t i = 0; i < faults.candidates().size(); ++i) {
    const locate::Candidate& other = faults.candidates()[i];
    const auto has_part = [&](std::size_t part) { return faults.fault_of(other, part) != not_found; };
    if (!std::all_of(answer.parts.begin(), answer.parts.end(), has_part)) continue;
    with_any += report.diagnosis.candidates[i];
    const bool is_same = std::all_of(answer.parts.begin(), answer.parts.end(), [&](std::size_t part) {
      return faults.fault_of(other, part) == faults.fault_of(likeliest, part);
    });
    if (is_same) with_these += report.diagnosis.candidates[i];
  }
  return with_these >= nearly_all * with_any;
}

std::size_t SearchInWords::likeliest_candidate_of(const locate::AnswerSet& answer) const {
  return locate::likeliest_candidate(faults, report.diagnosis, answer.parts, answer.outside_cause);
}

std::vector<std::size_t> SearchInWords::likeliest_instances(const locate::AnswerSet& answer) const {
  constexpr double least_share_of_likeliest = 0.02;
  const std::size_t candidate = likeliest_candidate_of(answer);
  std::vector<std::size_t> instances;
  double likeliest = 0.0;
  for (const locate::Reasoner::Weighed& weighed : likeliest_ways) {
    if (report.reasoner.instance(weighed.instance).candidate != &faults.candidates()[candidate]) continue;
    likeliest = std::max(likeliest, weighed.probability);
    if (weighed.probability < least_share_of_likeliest * likeliest) break;
    instances.push_back(weighed.instance);
  }
  if (instances.empty()) instances.push_back(report.reasoner.first_instance(candidate));
  return instances;
}

std::optional<std::size_t> SearchInWords::likeliest_instance(const locate::AnswerSet& answer) const {
  const std::size_t candidate = likeliest_candidate_of(answer);
  for (const locate::Reasoner::Weighed& weighed : likeliest_ways)
    if (report.reasoner.instance(weighed.instance).candidate == &faults.candidates()[candidate])
      return weighed.instance;
  return report.reasoner.first_instance(candidate);
}

std::string SearchInWords::local_codes() const {
  return say(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list"));
}

}  // namespace ohmwright
