#pragma once

#include <memory>
#include <optional>
#include <vector>

#include <ohmwright/component/comparison.hpp>
#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/electrical.hpp>
#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/fitting.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// How strictly to judge.
struct JudgeSettings {
  double confidence = 0.95;  ///< c of `decide`; 0.5 < c < 1
};

/// What a good part reads in a situation.
struct Expectation {
  AnyQuantity nominal;
  Limits limits;                    ///< of good parts, without any doubt of the measurement
  double model_standard_error = 0;  ///< SI: doubt of the model itself, past the span its ratings state
  /// For a contact that opens and closes: the share of good parts that are closed there [0…1]. `nominal` and `limits`
  /// then speak of a closed one.
  std::optional<double> share_closed = {};
};

/// One physical component with its ratings. Made by its kind, immutable, safe to judge from several threads.
class OHMWRIGHT_CORE_API Part {
 public:
  Part() = default;
  Part(const Part&) = delete;
  Part& operator=(const Part&) = delete;
  virtual ~Part();

  /// Judges the evidence: every rule of the kind adds one finding or more, be it that it stays silent and why.
  /// Allocates nothing once `findings` has grown to its size.
  virtual void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const = 0;

  /// What a good part reads, or nothing where the ratings do not say.
  virtual std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const;

  /// Elements between the terminals for a fault mode (or `not_found` for a healthy part), appended to `elements` where
  /// the answer is `ModelAnswer::stated`. All that lies between the terminals is among them: what is not, is open.
  virtual ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                       std::vector<Element>& elements) const;
};

/// A type of component: what a plugin adds. Immutable after its creation.
class OHMWRIGHT_CORE_API Kind {
 public:
  Kind() = default;
  Kind(const Kind&) = delete;
  Kind& operator=(const Kind&) = delete;
  virtual ~Kind();

  virtual const Descriptor& descriptor() const = 0;

  /// A part with these ratings, already valid against the kind's schema; null `ratings` gives a part of which nothing
  /// is known. What the schema cannot say is added to `problems`; the result is then null.
  virtual std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const = 0;

  /// Ratings fitted to measured rows; no form at all where the kind offers none, or where the rows allow none (then the
  /// remarks say why). Throws nothing for bad rows: every one that breaks the pattern gets its remark.
  virtual Fitting fit(const FitRequest& request) const;

  /// Whether `candidate` can stand in for `original`, both parts of this kind; empty where the kind offers no
  /// comparison.
  virtual std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                                  const ComparisonContext& context) const;
};

}  // namespace ohmwright
