#pragma once

#include <vector>

#include <ohmwright/component/kind.hpp>

#include "model/definition.hpp"
#include "part/rated_figures.hpp"

namespace ohmwright::kind_file {

/// One part of a kind of a file, with its ratings or, without them, with what the file says of every part.
class PartOfFile final : public Part {
 public:
  /// `definition` is the kind's own; a part never outlives its kind.
  PartOfFile(const Definition& definition, RatingValues ratings, std::vector<KnownRule> rules)
      : definition_(definition), ratings_(std::move(ratings)), rules_(std::move(rules)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const RatingValues& ratings() const { return ratings_; }
  const std::vector<KnownRule>& rules() const { return rules_; }

 private:
  const Definition& definition_;
  RatingValues ratings_;
  std::vector<KnownRule> rules_;
};

}  // namespace ohmwright::kind_file
