// Which part was found to be at fault and left as it is, whatever else was replaced, and what a reading through the
// circuit says of one.

#include "job/untouched.hpp"

#include <algorithm>
#include <span>

#include "job/reading_entry.hpp"
#include "job/reading_judged.hpp"
#include "job/search.hpp"

namespace ohmwright::cli {

namespace {

/// A call from one repair to the next: what was read of a circuit says nothing any more once a part of it is another.
std::vector<TimeSpan> spans_between_repairs(const job::ServiceCall& call) {
  std::vector<const job::Told*> repairs;
  for (const job::ReplacedPart& part : call.replaced) repairs.push_back(&part);
  std::stable_sort(repairs.begin(), repairs.end(),
                   [](const job::Told* a, const job::Told* b) { return a->happened_before(*b); });
  std::vector<TimeSpan> spans{TimeSpan{}};
  for (const job::Told* repair : repairs) {
    spans.back().to = repair;
    spans.push_back({repair, nullptr});
  }
  return spans;
}

bool has_reading(const job::ServiceCall& call, const TimeSpan& span) {
  return std::any_of(call.readings.begin(), call.readings.end(),
                     [&](const job::MeasuredValue& reading) { return span.holds(reading); });
}

/// Whether the part was replaced or mended after the span began.
bool was_worked_on_since(const job::ServiceCall& call, const std::string& part, const TimeSpan& span) {
  return std::any_of(call.replaced.begin(), call.replaced.end(), [&](const job::ReplacedPart& replaced) {
    return replaced.part == part && (span.from == nullptr || span.from->happened_before(replaced));
  });
}

/// Whether the part, read by itself, was found good after the span ended. Good insulation says nothing of its work.
bool was_read_good_after(const job::ServiceCall& call, const std::string& part, const TimeSpan& span) {
  return span.to != nullptr &&
         std::any_of(call.readings.begin(), call.readings.end(), [&](const job::MeasuredValue& reading) {
           return reading.part == part && reading.outcome == Outcome::within_limits && reading.safety.empty() &&
                  !reading.happened_before(*span.to);
         });
}

/// Whether a reading is left that nothing explains, and that no later one at the same place took back: what went in is
/// taken for good, so a new part that is as dead as the old one shows just this.
bool leaves_unexplained(locate::Search& search) {
  const std::span<const locate::TakenReading> readings = search.readings();
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (!search.diagnosis().is_unexplained(i)) continue;
    bool was_taken_back = false;
    for (std::size_t j = i + 1; j < readings.size(); ++j)
      was_taken_back = was_taken_back || (readings[j].measurement.test_point == readings[i].measurement.test_point &&
                                          !search.diagnosis().is_unexplained(j));
    if (!was_taken_back) return true;
  }
  return false;
}

/// What is believed by one reading alone, beside what is believed without any.
class ByOneReading {
 public:
  ByOneReading(const job::ServiceCall& call, const job::MeasuredValue& reading, const Arguments& arguments,
               const Environment& environment)
      : end_(just_behind(reading)),
        before_(call, arguments, environment, TimeSpan{&reading, &reading}),
        after_(call, arguments, environment, TimeSpan{&reading, &end_}) {}

  const Appliance& appliance() const { return after_.appliance(); }
  bool is_unexplained() { return after_.search().readings().empty() || after_.search().diagnosis().is_unexplained(0); }
  bool makes_order_likelier() {
    return after_.search().diagnosis().nothing_wrong >= before_.search().diagnosis().nothing_wrong;
  }
  bool speaks_against(std::size_t part) {
    constexpr double likelier = 1.3;  // so many times as likely to be at fault (assumed, no source)
    constexpr double least = 0.02;
    const double fault = after_.search().diagnosis().parts[part];
    return fault >= least && fault >= likelier * before_.search().diagnosis().parts[part];
  }

 private:
  static job::Told just_behind(job::Told told) {
    ++told.order;
    return told;
  }

  job::Told end_;
  JobSearch before_;
  JobSearch after_;
};

}  // namespace

std::string place_that_spoke_against(const job::ServiceCall& call, const std::string& part, const Arguments& arguments,
                                     const Environment& environment) {
  if (!call.has_appliance()) return {};
  const job::ReplacedPart* worked_on = call.last_work_on(part);
  const auto of_each_place = job::latest_of_each(
      call.readings, [](const job::MeasuredValue& reading) { return reading.place_read(); },
      [&](const job::MeasuredValue& reading) {
        return !reading.word.empty() && reading.part.empty() && !reading.agreed_live &&
               (worked_on == nullptr || !reading.happened_before(*worked_on));
      });
  const job::MeasuredValue* last = nullptr;
  for (const auto& [place, reading] : of_each_place) {
    if (last != nullptr && reading->happened_before(*last)) continue;
    ByOneReading by_it(call, *reading, arguments, environment);
    const std::optional<std::size_t> placed = part_named(by_it.appliance(), part);
    if (placed && by_it.speaks_against(*placed)) last = reading;
  }
  return last == nullptr ? std::string() : last->place_read();
}

bool reads_as_it_should(const job::ServiceCall& call, const job::MeasuredValue& reading, const Arguments& arguments,
                        const Environment& environment) {
  ByOneReading by_it(call, reading, arguments, environment);
  return !by_it.is_unexplained() && by_it.makes_order_likelier();
}

std::vector<NamedPart> named_and_untouched(const job::ServiceCall& call, const Arguments& arguments,
                                           const Environment& environment) {
  std::vector<NamedPart> untouched;
  if (!call.has_appliance()) return untouched;
  for (const TimeSpan& span : spans_between_repairs(call)) {
    if (!has_reading(call, span)) continue;
    JobSearch search(call, arguments, environment, span);
    const locate::Standing& standing = search.search().standing();
    if (!standing.is_named()) continue;
    for (const std::size_t named : standing.parts) {
      const PlacedPart& part = search.appliance().parts[named];
      const bool known =
          std::any_of(untouched.begin(), untouched.end(), [&](const NamedPart& other) { return other.id == part.id; });
      if (!known && !was_worked_on_since(call, part.id, span) && !was_read_good_after(call, part.id, span))
        untouched.push_back({part.id, part.title, may_open_for_good(part.kind->descriptor())});
    }
  }
  return untouched;
}

bool speaks_of_a_fault_since_repair(const job::ServiceCall& call, const Arguments& arguments,
                                    const Environment& environment) {
  constexpr double hardly = 0.05;  // so many times as likely as before those readings, that all is in order
  if (!call.has_appliance() || call.replaced.empty()) return false;
  const TimeSpan span = spans_between_repairs(call).back();
  const bool read_at_a_point =
      std::any_of(call.readings.begin(), call.readings.end(),
                  [&](const job::MeasuredValue& reading) { return span.holds(reading) && !reading.point.empty(); });
  if (!read_at_a_point) return false;
  job::ServiceCall unread = call;  // a cause that was found since, and seen to, is no fault that those readings show
  std::erase_if(unread.readings, [&](const job::MeasuredValue& reading) { return span.holds(reading); });
  JobSearch before(unread, arguments, environment, span);
  JobSearch after(call, arguments, environment, span);
  return leaves_unexplained(after.search()) ||
         after.search().diagnosis().nothing_wrong < hardly * before.search().diagnosis().nothing_wrong;
}

}  // namespace ohmwright::cli
