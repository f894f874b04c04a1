#include <algorithm>

#include <ohmwright/component/opens_for_good.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/search_in_words.hpp>

namespace ohmwright {

namespace {

using locate::Standing;

class AfterwardsSentences {
 public:
  AfterwardsSentences(const SearchInWords& words, LocateContent& content) : words_(words), content_(content) {}

  void afterwards() {
    const bool named =
        words_.report.standing.form == Standing::Form::settled || words_.report.standing.form == Standing::Form::likely;
    if (!named) return;
    causes_first();
    for (const std::size_t part : words_.named.parts) {
      if (is_replaced(part)) continue;
      const PlacedPart& placed = words_.appliance.parts[part];
      content_.afterwards.push_back(words_.say(
          opens_once_and_for_good(placed.kind->descriptor())
              ? OHMWRIGHT_TEXT(
                    "Replace: {part}. It opens once and for good, and for a reason: never mend or bridge it. The new "
                    "one is a true equivalent (ohmwright compare {kind}).")
              : OHMWRIGHT_TEXT(
                    "Mend or replace: {part}. What can be thawed, freed, cleaned or remade needs no new part; a new "
                    "one is a true equivalent (ohmwright compare {kind})."),
          {{"part", placed.title}, {"kind", std::string(placed.kind->descriptor().id)}}));
    }
    // What is cold is defrosted; the rest has no such run.
    content_.afterwards.push_back(words_.say(
        words_.appliance.refrigerant == "none"
            ? OHMWRIGHT_TEXT(
                  "Prove it: read again what was wrong, insulation to the frame before you plug in, then watch "
                  "one whole run with every cover on and somebody there.")
            : OHMWRIGHT_TEXT(
                  "Prove it: read again what was wrong, insulation to the frame before you plug in, then watch "
                  "one forced defrost with a proved limit, a clear drain, a time limit and somebody there.")));
  }

 private:
  bool is_replaced(std::size_t part) const {
    return std::any_of(words_.report.signs.replaced.begin(), words_.report.signs.replaced.end(),
                       [part](const locate::ReplacedSign& sign) { return sign.part == part && sign.cured; });
  }

  /// A part that was the consequence of another fails again unless that one is mended first.
  void causes_first() {
    const locate::Candidate* candidate = likeliest_candidate();
    if (candidate == nullptr) return;
    for (const std::uint16_t fault : candidate->faults) {
      if (!words_.faults.mode(fault).looks_upstream.empty())
        content_.afterwards.push_back(words_.say(
            OHMWRIGHT_TEXT(
                "{part}: {fault}. That may be the consequence of another fault; a new part alone goes the same way."),
            {{"part", words_.appliance.parts[words_.faults.faults()[fault].fault.part].title},
             {"fault", fault_title(words_.faults, fault, words_.say)}}));
      for (const Consequence& row : words_.appliance.consequences) {
        if (!(row.effect == words_.faults.faults()[fault].fault)) continue;
        const std::string cause = row.cause ? words_.appliance.parts[row.cause->part].title
                                            : words_.appliance.outside_causes[*row.outside_cause].title;
        content_.afterwards.push_back(
            words_.say(OHMWRIGHT_TEXT("Look for what may have caused it first: {cause}"), {{"cause", cause}}));
      }
      for (const std::string_view role : words_.faults.mode(fault).looks_upstream) add_upstream(role, fault);
    }
  }

  void add_upstream(std::string_view role, std::size_t fault) {
    for (std::size_t i = 0; i < words_.appliance.parts.size(); ++i) {
      if (i == words_.faults.faults()[fault].fault.part) continue;
      if (!plays(words_.appliance.parts[i].kind->descriptor().roles, role)) continue;
      const std::string line = words_.say(OHMWRIGHT_TEXT("Look for what may have caused it first: {cause}"),
                                          {{"cause", words_.appliance.parts[i].title}});
      if (std::find(content_.afterwards.begin(), content_.afterwards.end(), line) == content_.afterwards.end())
        content_.afterwards.push_back(line);
    }
  }

  const locate::Candidate* likeliest_candidate() const {
    const std::optional<std::size_t> instance = words_.likeliest_instance(words_.named);
    return instance ? words_.report.reasoner.instance(*instance).candidate : nullptr;
  }

  const SearchInWords& words_;
  LocateContent& content_;
};

}  // namespace

void say_afterwards(const SearchInWords& words, LocateContent& content) {
  AfterwardsSentences(words, content).afterwards();
}

}  // namespace ohmwright
