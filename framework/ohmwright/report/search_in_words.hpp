#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/report/locate_report.hpp>

namespace ohmwright {

/// A search with its answers, and how its page calls them. Between source files of this area, as the functions below.
struct SearchInWords {
  SearchInWords(const LocateReport& of, const Sentences& in);

  const LocateReport& report;
  const Sentences& say;
  const locate::FaultList& faults;
  const Appliance& appliance;
  std::vector<locate::AnswerSet> answers;  ///< likeliest first
  locate::AnswerSet named;                 ///< what the search stands at: the sure ones, or the likeliest
  std::vector<locate::Reasoner::Weighed> likeliest_ways;  ///< instances, likeliest first, as many as are looked through

  /// Answers past this one are summed up as others.
  static constexpr std::size_t most_listed = 8;
  /// Answers below this share, too.
  static constexpr double least_listed = 0.005;

  std::string label(const locate::AnswerSet& answer) const;
  /// The fault that stands for its parts, with its own share where that is not nearly all of theirs.
  std::string label_with_share(const locate::AnswerSet& answer) const;
  /// The same, but the parts alone where that is not nearly all of theirs: what is sure is named, and no more.
  std::string label_of_the_sure(const locate::AnswerSet& answer) const;
  bool is_mostly_one_fault(const locate::AnswerSet& answer, double nearly_all) const;
  std::size_t likeliest_candidate_of(const locate::AnswerSet& answer) const;
  /// Of the fault that the answer is called by, not of another of the same part.
  std::optional<std::size_t> likeliest_instance(const locate::AnswerSet& answer) const;
  /// The same with the other ways in which that fault may be there, those that are not far less likely; never empty.
  std::vector<std::size_t> likeliest_instances(const locate::AnswerSet& answer) const;
  std::string local_codes() const;
};

/// Headline and explanation: what is found, and what to stop for before all else.
void say_headline(const SearchInWords& words, LocateContent& content);
/// What was read and seen.
void say_evidence(const SearchInWords& words, LocateContent& content);
/// Before and after the part is replaced: its cause first, what stands in for it, how to prove it.
void say_afterwards(const SearchInWords& words, LocateContent& content);
/// What the probabilities rest on.
void say_assumed(const SearchInWords& words, LocateContent& content);

}  // namespace ohmwright
