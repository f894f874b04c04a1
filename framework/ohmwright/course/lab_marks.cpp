#include <algorithm>
#include <cmath>
#include <cstddef>

#include <ohmwright/course/lab.hpp>

namespace ohmwright::course {

namespace {

double difference_of(const LabReading& reading, const LabPart& part) {
  return std::abs(reading.shown.value.value_in_si() - part.reference.value.value_in_si());
}

/// Differences of the class from the reference of one part past this are slips: a thousand, or another part.
double farthest_of_class(const LabPart& part, std::span<const LabReading> readings) {
  constexpr double times_the_median = 10.0;  // common practice, no source
  std::vector<double> differences;
  for (const LabReading& reading : readings)
    if (reading.tag == part.tag) differences.push_back(difference_of(reading, part));
  if (differences.empty()) return 0.0;
  // Of two the smaller, so that one slip of two readings is one.
  const auto middle = differences.begin() + static_cast<std::ptrdiff_t>((differences.size() - 1) / 2);
  std::nth_element(differences.begin(), middle, differences.end());
  const double by_the_class = times_the_median * std::max(*middle, part.reference.half_width.value_or(0.0));
  // A median of fewer than three tells no slip from a wrong reading: then only what is half as large again is one.
  constexpr std::size_t few = 3;
  const double by_the_part = std::abs(part.reference.value.value_in_si()) / 2.0;
  return differences.size() < few ? std::max(by_the_class, by_the_part) : by_the_class;
}

}  // namespace

std::vector<LabMark> lab_marks(const Lab& lab, std::span<const LabReading> readings) {
  std::vector<LabMark> marks;
  for (const LabReading& reading : readings) {
    const auto part =
        std::find_if(lab.parts.begin(), lab.parts.end(), [&](const LabPart& one) { return one.tag == reading.tag; });
    if (part == lab.parts.end()) continue;
    const double difference = difference_of(reading, *part);
    const double of_reference = part->reference.half_width.value_or(0.0);
    const double stated = reading.shown.half_width.value_or(0.0);
    LabMark mark{&reading, &*part, difference / std::hypot(stated, of_reference), false, 0.0};
    mark.covers = mark.e_n <= 1.0;
    const double farthest = farthest_of_class(*part, readings);
    mark.is_a_slip = difference > farthest;
    double largest = of_reference;
    for (const LabReading& other : readings)
      if (other.tag == reading.tag && difference_of(other, *part) <= farthest)
        largest = std::max(largest, difference_of(other, *part));
    mark.doubt_ratio = stated / largest;
    marks.push_back(mark);
  }
  return marks;
}

bool is_idle(const LabMark& mark) {
  constexpr double idle_doubt = 5.0;  // times the largest difference of the class (common practice, no source)
  return mark.covers && mark.doubt_ratio > idle_doubt;
}

double share_of(const LabMark& mark) {
  constexpr double of_an_idle_doubt = 0.5;
  return !mark.covers ? 0.0 : is_idle(mark) ? of_an_idle_doubt : 1.0;
}

std::vector<LabTotal> lab_totals(std::span<const LabMark> marks) {
  std::vector<LabTotal> totals;
  for (const LabMark& mark : marks) {
    const auto same = [&](const LabTotal& one) { return one.student == mark.reading->student; };
    auto total = std::find_if(totals.begin(), totals.end(), same);
    if (total == totals.end()) total = totals.insert(totals.end(), {mark.reading->student, 0, 0.0});
    const auto before = static_cast<double>(total->readings++);
    total->share = (total->share * before + share_of(mark)) / (before + 1.0);
  }
  return totals;
}

std::vector<LabSpread> lab_spreads(const Lab& lab, std::span<const LabMark> marks) {
  std::vector<LabSpread> spreads;
  for (const LabPart& part : lab.parts) {
    std::vector<double> values;
    for (const LabMark& mark : marks)
      if (mark.part == &part && !mark.is_a_slip) values.push_back(mark.reading->shown.value.value_in_si());
    if (values.empty()) continue;
    LabSpread spread{&part, values.size(), 0.0, std::nullopt};
    const auto count = static_cast<double>(values.size());
    for (const double value : values) spread.mean += value / count;
    double squares = 0.0;
    for (const double value : values) squares += (value - spread.mean) * (value - spread.mean);
    if (values.size() > 1) spread.deviation = std::sqrt(squares / (count - 1.0));
    spreads.push_back(spread);
  }
  return spreads;
}

}  // namespace ohmwright::course
