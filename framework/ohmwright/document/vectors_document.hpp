#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// A number that a verdict must give, and how far it may be off.
struct ExpectedProbability {
  double value = 0.0;
  double tolerance = 0.0;
  std::string reason;  ///< why this tolerance
};

/// What one rule must say.
struct ExpectedRule {
  std::string rule;
  Outcome outcome = Outcome::undecided;
};

/// A figure that a rule must give. Its dimension is known only beside the figure itself ("23 K" may be a temperature or
/// a difference), so a quantity stays as it was written until `allowed_in` reads it.
struct ExpectedFigure {
  std::string rule;
  std::string figure;  ///< "measured", "lower", "upper" or the name of an argument
  std::variant<double, std::string> value;
  std::variant<double, std::string> tolerance;  ///< absolute, in the same form as the value
  std::optional<double> relative_tolerance;     ///< when given, instead of `tolerance`
  std::string reason;
  std::string pointer;  ///< where it stands in the file
  int line = 0;
};

/// A figure's expected value and the furthest that it may be off, both in the SI unit.
struct AllowedFigure {
  double value = 0.0;
  double tolerance = 0.0;
};

/// The expected figure read as that dimension; a plain number as a ratio. Throws InputError for one of another
/// dimension.
AllowedFigure allowed_in(const ExpectedFigure& figure, Dimension dimension);

/// One case of a vectors file.
struct VectorCase {
  std::string id;
  std::string title;  ///< what a technician would say
  std::string source;
  std::string ratings_name;            ///< of a ratings file of the kind; empty when in place or when nothing is known
  const ValueNode* ratings = nullptr;  ///< in place, the kind's figures; valid against the kind's schema
  std::string meter;                   ///< default meter of its readings; empty: the call's
  std::optional<double> confidence;
  std::vector<Reading> readings;
  Outcome verdict = Outcome::undecided;
  std::optional<ExpectedProbability> probability_within;
  std::vector<ExpectedRule> rules;
  std::vector<ExpectedFigure> figures;
  std::optional<std::vector<std::string>> advice;  ///< ids; none expected when the list is there and empty
  int line = 0;
};

/// A vectors file (schemas/vectors.schema.json). Keeps the document that the cases' ratings point into.
struct VectorsDocument {
  std::string kind;
  std::vector<VectorCase> cases;
  std::shared_ptr<const Document> document;
};

/// The cases of a vectors file, with their readings, rules, advice and ratings in place checked against the kind, and
/// their ids each used once. Throws DocumentError with all that is wrong.
VectorsDocument read_vectors(Document document, const Descriptor& descriptor, const MeterSet* meters = nullptr);

}  // namespace ohmwright
