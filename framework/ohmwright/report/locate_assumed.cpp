#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/search_in_words.hpp>

namespace ohmwright {

namespace {

class AssumedSentences {
 public:
  AssumedSentences(const SearchInWords& words, LocateContent& content) : words_(words), content_(content) {}

  void assumed() {
    content_.assumed.push_back(words_.say(
        OHMWRIGHT_TEXT("How often each fault is there: assumed weights of the kinds and of the appliance's file "
                       "(--weights replaces them); {percent} % for a fault of weight 1, at most {most} at once."),
        {{"percent", 100.0 * words_.report.priors.odds_of_unit_weight},
         {"most", static_cast<double>(words_.report.priors.most_faults)}}));
    content_.assumed.push_back(
        words_.say(OHMWRIGHT_TEXT("Weights of the likeliest: {weights}."), {{"weights", weights()}}));
    content_.assumed.push_back(
        words_.say(OHMWRIGHT_TEXT("{percent} % of all readings are misread."),
                   {{"percent", 100.0 * words_.report.reasoner.prober().model().misread_share}}));
    content_.assumed.push_back(words_.say(
        OHMWRIGHT_TEXT("{percent} % of all set-ups did not take, {fewer} % of those that a thermometer confirms."),
        {{"percent", 100.0 * words_.report.reasoner.prober().model().set_up_missed},
         {"fewer", 100.0 * words_.report.reasoner.prober().model().temperature_missed}}));
    temperatures();
    states();
    content_.assumed.push_back(words_.say(OHMWRIGHT_TEXT("Meter: {meter}"), {{"meter", words_.report.meter_title}}));
  }

 private:
  /// How parts stand that a hand can turn, unless somebody said it.
  void states() {
    const locate::Site& site = words_.report.reasoner.prober().site();
    std::vector<std::pair<std::size_t, std::uint16_t>> told;
    for (const SetState& other : site.states_not_said) {
      const std::pair which{other.part, other.value.state};
      if (std::find(told.begin(), told.end(), which) != told.end()) continue;
      told.push_back(which);
      const PlacedPart& part = words_.appliance.parts[other.part];
      const StateDescriptor& state = part.kind->descriptor().states[other.value.state];
      const auto as_found = std::find_if(part.states.begin(), part.states.end(),
                                         [&](const StateValue& one) { return one.state == other.value.state; });
      if (as_found == part.states.end()) continue;
      content_.assumed.push_back(words_.say(
          OHMWRIGHT_TEXT("{part}: found as \"{value}\" (--state {id}=... says it)."),
          {{"part", part.title},
           {"value", words_.say.in_domain(part.kind->descriptor().text_domain, state.values[as_found->value].english)},
           {"id", part.id + "." + std::string(state.id)}}));
    }
  }

  void temperatures() {
    for (std::size_t i = 0; i < words_.appliance.zones.size(); ++i) content_.assumed.push_back(temperature_of(i));
  }

  std::string temperature_of(std::size_t i) const {
    const locate::Site& site = words_.report.reasoner.prober().site();
    const FindingArgument zone{"zone", words_.appliance.zones[i].title};
    const FindingArgument id{"id", words_.appliance.zones[i].id};
    if (site.not_measured[i])
      return words_.say(OHMWRIGHT_TEXT("Temperature of the {zone}: not measured, anything from {temperature} to "
                                       "{warmest} (--zone {id}=... says it)."),
                        {zone,
                         {"temperature", temperature_text(site.not_measured[i]->from_kelvin, words_.say)},
                         {"warmest", temperature_text(site.not_measured[i]->to_kelvin, words_.say)},
                         id});
    const FindingArgument temperature{"temperature", words_.say.stated(site.zone_temperatures[i])};
    switch (site.known[i]) {
      case locate::ZoneKnowledge::by_file:
        return words_.say(
            OHMWRIGHT_TEXT("Temperature of the {zone}: not measured, {temperature} (--zone {id}=... says it)."),
            {zone, temperature, id});
      case locate::ZoneKnowledge::said_without_doubt:
        return words_.say(OHMWRIGHT_TEXT("Temperature of the {zone}: {temperature} (doubt assumed)."),
                          {zone, temperature});
      case locate::ZoneKnowledge::said:
        break;
    }
    return words_.say(OHMWRIGHT_TEXT("Temperature of the {zone}: {temperature}."), {zone, temperature});
  }

  /// "heater.open 2, link.acted 1": of the faults of the answers listed, each once, as --weights names them.
  std::string weights() const {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < words_.answers.size() && i < SearchInWords::most_listed; ++i) {
      const std::optional<std::size_t> instance = words_.likeliest_instance(words_.answers[i]);
      if (!instance) continue;
      for (const std::uint16_t fault : words_.report.reasoner.instance(*instance).candidate->faults) {
        const double weight = words_.faults.faults()[fault].odds / words_.report.priors.odds_of_unit_weight;
        const std::string line = words_.faults.name(fault) + " " + fmt::format("{:.3g}", weight);
        if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
      }
    }
    return lines.empty() ? words_.say(OHMWRIGHT_TEXT("none")) : listed(lines);
  }

  const SearchInWords& words_;
  LocateContent& content_;
};

}  // namespace

void say_assumed(const SearchInWords& words, LocateContent& content) { AssumedSentences(words, content).assumed(); }

}  // namespace ohmwright
