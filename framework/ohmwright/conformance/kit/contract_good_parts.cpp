// What the electrical model of a good part may read, the rules do not condemn: else an exercise or a search calls a
// part good of which a check says to replace it.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/conformance/kit/tried_situations.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/quantity/message.hpp>
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
    const Descriptor& descriptor = tried_.kind.descriptor();
    for (const auto& [measurand, element] : read_in(situation)) {
      for (const double end : {-1.0, 0.0, 1.0}) {
        const double value = element.value_in_si * (1.0 + end * element.relative_half_width);
        const std::vector<Reading> readings{reading_of(descriptor, *measurand, situation, value)};
        if (outcome_of(tried_, prepared_, readings) == Outcome::out_of_limits)
          lines.push_back(std::string(measurand->id) + " " + exact_text({measurand->dimension, value}) +
                          " of a good part, by its electrical model, is condemned by its rules");
      }
    }
    return lines;
  }

  bool shows_something(const Situation& situation) const { return !read_in(situation).empty(); }

 private:
  /// The measurands whose value is that of one element of the model, with that element.
  std::vector<std::pair<const MeasurandDescriptor*, Element>> read_in(const Situation& situation) const {
    std::vector<std::pair<const MeasurandDescriptor*, Element>> read;
    std::vector<Element> elements;
    if (prepared_.part->electrical_model(not_found, situation, elements) != ModelAnswer::stated) return read;
    for (const MeasurandDescriptor& measurand : tried_.kind.descriptor().measurands) {
      const Element* element = measurand.from == not_found ? nullptr : alone_across(elements, measurand);
      if (element != nullptr && element->value_in_si > 0.0) read.emplace_back(&measurand, *element);
    }
    return read;
  }

  const KindCases& tried_;
  PreparedVector prepared_;
};

/// Of each class of ratings a good part, with the name of the class.
std::vector<std::pair<std::string, GoodPart>> good_parts_of(const KindCases& tried) {
  std::vector<std::pair<std::string, GoodPart>> parts;
  const std::string folder = tried.kind.ratings_folder().string();
  for (const std::string& name : names_in_folder(folder)) {
    const RatingsDocument ratings =
        read_ratings(read_document_to_check(folder + "/" + name + ".json"), tried.kind.descriptor());
    std::vector<Problem> problems;
    const auto part = tried.kind.make_part(ratings.ratings, problems);
    if (part != nullptr) parts.emplace_back(name, GoodPart(tried, part));  // else told where classes are looked at
  }
  return parts;
}

}  // namespace

std::vector<std::string> breaches_of_good_parts(const KindCases& tried) {
  std::vector<std::string> breaches;
  for (const auto& [name, good] : good_parts_of(tried)) {
    for (const Situation& situation : tried_situations(tried.kind.descriptor())) {
      std::vector<std::string> lines;
      const auto thrown = guarded([&, &part = good] { lines = part.condemned(situation); });
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

std::string_view why_no_good_part_was_tried(const KindCases& tried) {
  const std::vector<Situation> situations = tried_situations(tried.kind.descriptor());
  for (const auto& [name, good] : good_parts_of(tried))
    for (const Situation& situation : situations)
      if (good.shows_something(situation)) return {};
  return OHMWRIGHT_TEXT(
      "no measurand is the value of one element of its electrical model: say of each between which terminals it is "
      "read, "
      "and at which condition its model can be asked (a chart).");
}

}  // namespace ohmwright
