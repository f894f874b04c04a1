#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_steps.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright {

std::string step_title(const Appliance& appliance, const locate::Step& step, const Sentences& say) {
  const FindingArgument minutes{"minutes", minutes_text(step.minutes)};
  switch (step.form) {
    case locate::Step::Form::measure:
      return say(OHMWRIGHT_TEXT("{point} (about {minutes})"),
                 {{"point", test_point_title(appliance, step.measurement, say)}, minutes});
    case locate::Step::Form::look:
      return say(OHMWRIGHT_TEXT("Look: {check} (about {minutes})"),
                 {{"check", look_words(appliance, step.subject).check}, minutes});
    case locate::Step::Form::replace:
      break;
  }
  return say(OHMWRIGHT_TEXT("Replace the {part} and see whether it runs (about {minutes})"),
             {{"part", appliance.parts[step.subject].title}, minutes});
}

namespace {

/// Leads to lift, those of one part in one line.
void add_lifted(const Appliance& appliance, const std::vector<PartTerminal>& lifted, const Sentences& say,
                std::vector<std::string>& lines) {
  for (std::size_t i = 0; i < lifted.size();) {
    const PlacedPart& part = appliance.parts[lifted[i].part];
    std::vector<std::string> terminals;
    for (const std::size_t of = lifted[i].part; i < lifted.size() && lifted[i].part == of; ++i)
      terminals.emplace_back(part.kind->descriptor().terminals[lifted[i].terminal]);
    lines.push_back(terminals.size() == 1 ? say(OHMWRIGHT_TEXT("Lift a lead: {terminal} of {part}"),
                                                {{"terminal", terminals.front()}, {"part", part.title}})
                                          : say(OHMWRIGHT_TEXT("Lift the leads: {terminals} of {part}"),
                                                {{"terminals", listed(terminals)}, {"part", part.title}}));
  }
}

/// What another set-up left behind is ended before anything is read without it.
void add_end_of_other(const Appliance& appliance, const locate::WorkState& work, const locate::Measurement& measurement,
                      const Sentences& say, std::vector<std::string>& lines) {
  if (!work.set_up || work.set_up == measurement.set_up) return;
  const SetUp& before = appliance.set_ups[*work.set_up];
  if (before.only_stated || before.cools_down) return;
  lines.push_back(before.way_out.empty() ? say(OHMWRIGHT_TEXT("End first: {set_up}"), {{"set_up", before.title}})
                                         : say(OHMWRIGHT_TEXT("End first: {set_up}: {way}"),
                                               {{"set_up", before.title}, {"way", before.way_out}}));
}

/// Leads under ice are reached once it is gone, and what is chilled is handled with its leads on. What has the line is
/// not handled any more.
bool lifts_after(const SetUp& set_up) { return !set_up.temperatures.empty() && !set_up.live; }

}  // namespace

locate::WorkState work_before(locate::WorkState work, const locate::Step& step) {
  if (step.leaves_set_up) work.set_up.reset();
  return work;
}

std::vector<std::string> work_lines(const Appliance& appliance, const locate::WorkState& work,
                                    const locate::Measurement& measurement, const Sentences& say) {
  std::vector<std::string> lines;
  const bool live = locate::is_live(appliance, measurement);
  if (live)
    lines.push_back(say(OHMWRIGHT_TEXT(
        "Live step: place the probes unplugged, hands away, then plug in. Only if you are qualified for it.")));
  else if (work.power != locate::WorkState::Power::dead)
    lines.push_back(say(OHMWRIGHT_TEXT("Unplug, prove dead, discharge.")));
  for (const std::size_t cover : locate::covers_to_take_off(appliance, work, measurement))
    lines.push_back(say(OHMWRIGHT_TEXT("Take off: {cover}"), {{"cover", appliance.covers[cover].title}}));
  add_end_of_other(appliance, work, measurement, say, lines);
  const std::vector<PartTerminal>& lifted = appliance.test_points[measurement.test_point].lifted;
  const bool is_set_up_anew = measurement.set_up && work.set_up != measurement.set_up;
  const bool lifts_last = is_set_up_anew && lifts_after(appliance.set_ups[*measurement.set_up]);
  if (!lifts_last) add_lifted(appliance, lifted, say, lines);
  if (is_set_up_anew) {
    const SetUp& set_up = appliance.set_ups[*measurement.set_up];
    lines.push_back(say(OHMWRIGHT_TEXT("Set up: {set_up}"), {{"set_up", set_up.title}}));
    for (const std::string& line : set_up.steps) lines.push_back(line);
    if (!set_up.confirmed_by.empty())
      lines.push_back(say(OHMWRIGHT_TEXT("It took if: {sign}"), {{"sign", set_up.confirmed_by}}));
  }
  if (lifts_last) add_lifted(appliance, lifted, say, lines);
  return lines;
}

std::optional<std::string> way_out_line(const Appliance& appliance, const locate::Measurement& measurement,
                                        const Sentences& say) {
  if (!measurement.set_up || appliance.set_ups[*measurement.set_up].way_out.empty()) return std::nullopt;
  return say(OHMWRIGHT_TEXT("Afterwards, once nothing more is read so: {way}"),
             {{"way", appliance.set_ups[*measurement.set_up].way_out}});
}

}  // namespace ohmwright
