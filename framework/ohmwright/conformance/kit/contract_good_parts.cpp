// What the electrical model of a good part may read, the rules do not condemn: else an exercise or a search calls a
// part good of which a check says to replace it.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/conformance/kit/tried_situations.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

bool is_of(ElementType type, Dimension dimension) {
  return (type == ElementType::resistance && dimension == Dimension::resistance) ||
         (type == ElementType::capacitance && dimension == Dimension::capacitance) ||
         (type == ElementType::inductance && dimension == Dimension::inductance);
}

bool joins(const Element& element, std::uint16_t a, std::uint16_t b) {
  return (element.from == a && element.to == b) || (element.from == b && element.to == a);
}

/// The element that alone lies across that measurand, so that its value is what is read; nothing where there is none,
/// or where others conduct: beside it, or in series with it.
const Element* alone_across(const std::vector<Element>& elements, const MeasurandDescriptor& measurand) {
  const Element* found = nullptr;
  for (const Element& element : elements) {
    if (joins(element, measurand.from, measurand.to)) {
      if (found != nullptr || !is_of(element.type, measurand.dimension)) return nullptr;
      found = &element;
    } else if (element.type != ElementType::open && (element.from == measurand.from || element.to == measurand.from)) {
      return nullptr;  // a way around may begin there
    }
  }
  return found;
}

/// That value read under the circumstances of the situation, with the part alone.
Reading reading_of(const Descriptor& descriptor, const MeasurandDescriptor& measurand, const Situation& situation,
                   double value) {
  const auto stated = [](Dimension dimension, double si) {
    return StatedValue{AnyQuantity(dimension, si), std::nullopt, Unit::si(dimension)};
  };
  Reading reading{.measurand = std::string(measurand.id), .observed = stated(measurand.dimension, value)};
  for (const ConditionValue& given : situation.conditions) {
    const ConditionDescriptor& condition = descriptor.conditions[given.condition];
    reading.conditions.push_back({std::string(condition.id), stated(condition.dimension, given.value_in_si)});
  }
  for (const StateValue& set : situation.states) {
    const StateDescriptor& state = descriptor.states[set.state];
    reading.states.push_back({std::string(state.id), std::string(state.values[set.value].id)});
  }
  reading.connection = Connection::lead_off;
  reading.supply = Supply::proved_dead;
  if (measurand.dimension == Dimension::resistance) reading.leads = stated(Dimension::resistance, 0.0);
  return reading;
}

/// Reads the part of those ratings at the ends and in the middle of its model.
class GoodPart {
 public:
  GoodPart(const KindCases& tried, const std::shared_ptr<const Part>& part)
      : tried_(tried), prepared_{part, tried.meters, {}} {}

  /// What is condemned in that situation, one line each.
  std::vector<std::string> condemned(const Situation& situation) const {
    std::vector<std::string> lines;
    std::vector<Element> elements;
    if (prepared_.part->electrical_model(not_found, situation, elements) != ModelAnswer::stated) return lines;
    const Descriptor& descriptor = tried_.kind.descriptor();
    for (const MeasurandDescriptor& measurand : descriptor.measurands) {
      const Element* element = measurand.from == not_found ? nullptr : alone_across(elements, measurand);
      if (element == nullptr || !(element->value_in_si > 0.0)) continue;
      for (const double end : {-1.0, 0.0, 1.0}) {
        const double value = element->value_in_si * (1.0 + end * element->relative_half_width);
        const std::vector<Reading> readings{reading_of(descriptor, measurand, situation, value)};
        if (outcome_of(tried_, prepared_, readings) == Outcome::out_of_limits)
          lines.push_back(std::string(measurand.id) + " " + exact_text({measurand.dimension, value}) +
                          " of a good part, by its electrical model, is condemned by its rules");
      }
    }
    return lines;
  }

 private:
  const KindCases& tried_;
  PreparedVector prepared_;
};

}  // namespace

std::vector<std::string> breaches_of_good_parts(const KindCases& tried) {
  std::vector<std::string> breaches;
  const std::string folder = tried.kind.ratings_folder().string();
  for (const std::string& name : names_in_folder(folder)) {
    const RatingsDocument ratings =
        read_ratings(read_document_to_check(folder + "/" + name + ".json"), tried.kind.descriptor());
    std::vector<Problem> problems;
    const auto part = tried.kind.make_part(ratings.ratings, problems);
    if (part == nullptr) continue;  // told of where its classes are looked at
    const GoodPart good(tried, part);
    for (const Situation& situation : tried_situations(tried.kind.descriptor())) {
      std::vector<std::string> lines;
      const auto thrown = guarded([&] { lines = good.condemned(situation); });
      if (thrown) lines = {"it threw: " + *thrown};
      for (const std::string& line : lines) {
        std::string breach = name + ": " + line;
        if (std::find(breaches.begin(), breaches.end(), breach) == breaches.end())
          breaches.push_back(std::move(breach));
      }
    }
  }
  return breaches;
}

}  // namespace ohmwright
