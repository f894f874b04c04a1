#include <algorithm>

#include <ohmwright/appliance/shown_symptoms.hpp>
#include <ohmwright/component/symptom.hpp>
#include <ohmwright/locate/work.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_report.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright {

namespace {

/// Makes the sections of an appliance's page.
class ApplianceSentences {
 public:
  ApplianceSentences(const Appliance& appliance, const Sentences& say) : appliance_(appliance), say_(say) {}

  ApplianceContent make() {
    content_.headline = say_(OHMWRIGHT_TEXT("{title} ({id})"), {{"title", appliance_.title}, {"id", appliance_.id}});
    introduce();
    for (const PlacedPart& part : appliance_.parts) lines_.push_back(part_line(part));
    section(say_(OHMWRIGHT_TEXT("Parts")));
    for (const Zone& zone : appliance_.zones)
      lines_.push_back(say_(OHMWRIGHT_TEXT("{zone}: {temperature} as found"),
                            {{"zone", zone.title}, {"temperature", say_.stated(zone.temperature)}}));
    section(say_(OHMWRIGHT_TEXT("Temperatures")));
    for (const Cover& cover : appliance_.covers) lines_.push_back(cover_line(cover));
    section(say_(OHMWRIGHT_TEXT("What comes off")));
    for (std::size_t i = 0; i < appliance_.test_points.size(); ++i) lines_.push_back(test_point_line(i));
    section(say_(OHMWRIGHT_TEXT("Test points (from closed up, once it is dead)")));
    for (const SetUp& set_up : appliance_.set_ups) set_up_section(set_up);
    for (const OutsideCause& cause : appliance_.outside_causes)
      lines_.push_back(
          say_(OHMWRIGHT_TEXT("{id}: {cause}. {check} ({minutes})"), {{"id", cause.id},
                                                                      {"cause", cause.title},
                                                                      {"check", capitalised(cause.check)},
                                                                      {"minutes", minutes_text(cause.minutes)}}));
    section(say_(OHMWRIGHT_TEXT("Causes that are no part: look first")));
    for (const PartLook& look : appliance_.part_looks)
      lines_.push_back(
          say_(OHMWRIGHT_TEXT("{id}: {cause}. {check} ({minutes})"), {{"id", look.id},
                                                                      {"cause", look.title},
                                                                      {"check", capitalised(look.check)},
                                                                      {"minutes", minutes_text(look.minutes)}}));
    section(say_(OHMWRIGHT_TEXT("What no meter shows of a part: look")));
    for (const OwnSymptom& symptom : appliance_.symptoms)
      lines_.push_back(say_(OHMWRIGHT_TEXT("{id}: {symptom}"), {{"id", symptom.id}, {"symptom", symptom.title}}));
    section(say_(OHMWRIGHT_TEXT("What may be seen here, beside the usual")));
    for (const std::string& id : shown_symptoms(appliance_))
      if (const Symptom* symptom = symptom_named(id))
        lines_.push_back(say_(OHMWRIGHT_TEXT("{id}: {symptom}"), {{"id", id}, {"symptom", say_(symptom->english)}}));
    section(say_(OHMWRIGHT_TEXT("What may be seen (locate --symptom)")));
    for (const BoardCode& code : appliance_.codes)
      lines_.push_back(say_(OHMWRIGHT_TEXT("{code}: {meaning} [{source}]"),
                            {{"code", code.code}, {"meaning", code.meaning}, {"source", code.source}}));
    section(say_(OHMWRIGHT_TEXT("Codes of the control")));
    return std::move(content_);
  }

 private:
  void section(const std::string& title) {
    if (!lines_.empty()) content_.sections.push_back({title, std::move(lines_)});
    lines_.clear();
  }

  void introduce() {
    content_.introduction.push_back(say_(OHMWRIGHT_TEXT(
        "Unplug it, keep the plug in sight and prove it dead before any cover comes off. Local codes and "
        "licensed practice come first; live steps are for those qualified for them.")));
    content_.introduction.push_back(say_(OHMWRIGHT_TEXT("Supply: {voltage}, {frequency}."),
                                         {{"voltage", say_.stated(appliance_.supply.voltage)},
                                          {"frequency", say_.stated(appliance_.supply.frequency)}}));
    content_.introduction.push_back(refrigerant());
    if (!appliance_.source.empty())
      content_.introduction.push_back(say_(OHMWRIGHT_TEXT("Source: {source}."), {{"source", appliance_.source}}));
  }

  std::string refrigerant() const {
    if (appliance_.refrigerant == "flammable")
      return say_(OHMWRIGHT_TEXT("Refrigerant: FLAMMABLE. No flame, no spark, air the room; no work on its circuit."));
    if (appliance_.refrigerant == "non-flammable")
      return say_(OHMWRIGHT_TEXT("Refrigerant: not flammable, by its label."));
    if (appliance_.refrigerant == "none") return say_(OHMWRIGHT_TEXT("It has no refrigerant."));
    return say_(OHMWRIGHT_TEXT("Refrigerant: not known. Read the label; until then treat it as flammable."));
  }

  static std::string capitalised(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
      text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
  }

  std::string part_line(const PlacedPart& part) const {
    const Descriptor& descriptor = part.kind->descriptor();
    std::vector<std::string> places;
    for (std::size_t i = 0; i < part.nodes.size(); ++i)
      if (part.nodes[i])
        places.push_back(
            say_(OHMWRIGHT_TEXT("{terminal} at {node}"),
                 {{"terminal", std::string(descriptor.terminals[i])}, {"node", appliance_.nodes[*part.nodes[i]]}}));
    std::string line = say_(part.ratings.empty() ? OHMWRIGHT_TEXT("{id}: {title}, {kind}; {places}")
                                                 : OHMWRIGHT_TEXT("{id}: {title}, {kind} {ratings}; {places}"),
                            {{"id", part.id},
                             {"title", part.title},
                             {"kind", std::string(descriptor.id)},
                             {"ratings", part.ratings},
                             {"places", listed(places)}});
    for (const StateValue& state : part.states) {
      const StateDescriptor& of_kind = descriptor.states[state.state];
      line += say_(OHMWRIGHT_TEXT("; found {state}"),
                   {{"state", say_.in_domain(descriptor.text_domain, of_kind.values[state.value].english)}});
    }
    return line + hidden_by(part.behind);
  }

  std::string hidden_by(const std::vector<std::size_t>& covers) const {
    std::vector<std::string> titles;
    for (const std::size_t cover : covers) titles.push_back(appliance_.covers[cover].title);
    return titles.empty() ? "" : say_(OHMWRIGHT_TEXT("; behind: {covers}"), {{"covers", listed(titles)}});
  }

  std::string cover_line(const Cover& cover) const {
    std::string line = say_(OHMWRIGHT_TEXT("{id}: {title} ({minutes})"),
                            {{"id", cover.id}, {"title", cover.title}, {"minutes", minutes_text(cover.minutes)}});
    return line + hidden_by(cover.behind) + cautions(cover.cautions);
  }

  std::string cautions(const std::vector<std::string>& ids) const {
    std::string text;
    for (const std::string& id : ids) text += ". " + caution_words(appliance_, id, true, say_);
    return text;
  }

  std::string test_point_line(std::size_t index) const {
    const TestPoint& point = appliance_.test_points[index];
    double hidden = 0.0;
    for (const std::size_t cover :
         locate::covers_to_take_off(appliance_, locate::work_at_arrival(appliance_), {index, std::nullopt}))
      hidden += appliance_.covers[cover].minutes;
    const FindingArgument id{"id", point.id};
    const FindingArgument title{"title", point.title};
    const FindingArgument what{"what", measured(point.probe)};
    const FindingArgument own{"minutes", minutes_text(point.minutes)};
    const FindingArgument whole{"whole", minutes_text(point.minutes + hidden)};
    return (hidden > 0.0 ? say_(OHMWRIGHT_TEXT("{id}: {title} ({what}, {minutes}; {whole} with what hides it)"),
                                {id, title, what, own, whole})
                         : say_(OHMWRIGHT_TEXT("{id}: {title} ({what}, {minutes})"), {id, title, what, own})) +
           cautions(point.cautions);
  }

  std::string measured(Probe probe) const {
    switch (probe) {
      case Probe::volts:
        return say_(OHMWRIGHT_TEXT("volts, LIVE"));
      case Probe::amperes:
        return say_(OHMWRIGHT_TEXT("amperes, LIVE"));
      case Probe::ohms:
        break;
    }
    return say_(OHMWRIGHT_TEXT("ohms"));
  }

  void set_up_section(const SetUp& set_up) {
    for (const std::string& id : set_up.cautions)
      lines_.push_back(
          say_(OHMWRIGHT_TEXT("First: {caution}"), {{"caution", caution_words(appliance_, id, false, say_)}}));
    lines_.insert(lines_.end(), set_up.steps.begin(), set_up.steps.end());
    if (!set_up.confirmed_by.empty())
      lines_.push_back(say_(OHMWRIGHT_TEXT("It took if: {sign}"), {{"sign", set_up.confirmed_by}}));
    if (!set_up.way_out.empty()) lines_.push_back(say_(OHMWRIGHT_TEXT("To end it: {way}"), {{"way", set_up.way_out}}));
    const FindingArgument id{"id", set_up.id};
    const FindingArgument title{"title", set_up.title};
    const FindingArgument minutes{"minutes", minutes_text(set_up.minutes)};
    if (lines_.empty()) lines_.push_back(say_(OHMWRIGHT_TEXT("(the file gives no steps)")));
    section(set_up.live ? say_(OHMWRIGHT_TEXT("Set-up @{id}: {title} ({minutes}, LIVE)"), {id, title, minutes})
                        : say_(OHMWRIGHT_TEXT("Set-up @{id}: {title} ({minutes})"), {id, title, minutes}));
  }

  const Appliance& appliance_;
  const Sentences& say_;
  ApplianceContent content_;
  std::vector<std::string> lines_;  ///< of the section at hand
};

}  // namespace

ApplianceContent appliance_content(const Appliance& appliance, const Sentences& say) {
  return ApplianceSentences(appliance, say).make();
}

}  // namespace ohmwright
