#include <algorithm>
#include <set>

#include <nlohmann/json.hpp>

#include <ohmwright/job/service_call.hpp>

namespace ohmwright::job {

namespace {

using Json = nlohmann::ordered_json;

std::string text_in(const Json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

bool flag_in(const Json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_boolean() && found->get<bool>();
}

std::vector<std::string> texts_in(const Json& object, const char* name) {
  std::vector<std::string> texts;
  const auto found = object.find(name);
  if (found == object.end() || !found->is_array()) return texts;
  for (const Json& item : *found)
    if (item.is_string()) texts.push_back(item.get<std::string>());
  return texts;
}

std::vector<std::vector<std::string>> rows_in(const Json& object, const char* name) {
  std::vector<std::vector<std::string>> rows;
  const auto found = object.find(name);
  if (found == object.end() || !found->is_array()) return rows;
  for (const Json& row : *found) rows.push_back(texts_in(Json{{"row", row}}, "row"));
  return rows;
}

std::string json_in(const Json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && (found->is_object() || found->is_array()) ? found->dump() : std::string();
}

std::optional<double> number_in(const Json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_number() ? std::optional<double>(found->get<double>()) : std::nullopt;
}

std::vector<SafetyFinding> safety_in(const Json& object) {
  std::vector<SafetyFinding> all;
  const auto found = object.find("safety");
  if (found == object.end() || !found->is_array()) return all;
  for (const Json& item : *found)
    if (item.is_object())
      all.push_back({text_in(item, "rule"), outcome_named(text_in(item, "outcome")).value_or(Outcome::undecided)});
  return all;
}

MeasuredValue measured(const Told& told, const Json& content) {
  MeasuredValue value;
  static_cast<Told&>(value) = told;
  value.place = text_in(content, "place");
  value.title = text_in(content, "title");
  value.shown = text_in(content, "shown");
  value.word = text_in(content, "word");
  value.part = text_in(content, "part");
  value.kind = text_in(content, "kind");
  value.ratings = text_in(content, "ratings");
  value.records = json_in(content, "readings");
  value.verdict = json_in(content, "verdict");
  value.outcome = outcome_named(text_in(content, "outcome"));
  value.probability = number_in(content, "probability");
  value.headline = text_in(content, "headline");
  value.reasons = texts_in(content, "reasons");
  value.doubt = texts_in(content, "doubt");
  value.meter = text_in(content, "meter");
  value.safety = safety_in(content);
  value.cautions = texts_in(content, "cautions");
  value.agreed_live = flag_in(content, "agreed_live");
  return value;
}

ReplacedPart exchanged(const Told& told, const Json& content) {
  ReplacedPart part;
  static_cast<Told&>(part) = told;
  part.part = text_in(content, "part");
  part.title = text_in(content, "title");
  part.kind = text_in(content, "kind");
  part.old_ratings = text_in(content, "old");
  part.old_title = text_in(content, "old_title");
  part.new_ratings = text_in(content, "new");
  part.new_title = text_in(content, "new_title");
  part.equivalence = outcome_named(text_in(content, "equivalence")).value_or(Outcome::undecided);
  part.differences = texts_in(content, "differences");
  part.because = text_in(content, "because");
  part.tells_insulation = flag_in(content, "tells_insulation");
  part.has_earth = flag_in(content, "has_earth");
  return part;
}

/// One entry after the other, into the call.
class Teller {
 public:
  explicit Teller(ServiceCall& call) : call_(call) {}

  void tell(const Entry& entry, std::size_t order) {
    const Json content = Json::parse(entry.content, nullptr, false);
    if (!content.is_object()) return;
    call_.who = entry.who;
    const Told told{entry.id, entry.when(), call_.visits, order};
    for (const std::string& id : texts_in(content, "cautions"))
      if (std::find(call_.cautions.begin(), call_.cautions.end(), id) == call_.cautions.end())
        call_.cautions.push_back(id);
    tell_the_frame(entry, told, content);
    tell_the_work(entry, told, content);
  }

 private:
  void tell_the_frame(const Entry& entry, const Told& told, const Json& content) {
    if (entry.form == forms::opened) {
      call_.title = text_in(content, "title");
      call_.complaint = text_in(content, "complaint");
      call_.opened_at = told.when;
    } else if (entry.form == forms::phone) {
      for (const auto& [question, answer] : content.items())
        if (answer.is_string()) call_.phone[question] = answer.get<std::string>();
    } else if (entry.form == forms::appliance) {
      call_.appliance = text_in(content, "name");
      call_.appliance_file = json_in(content, "file");
    } else if (entry.form == forms::state) {
      call_.state = text_in(content, "state");
      call_.state_reason = text_in(content, "reason");
      call_.state_since = told.when;
      if (const std::string day = text_in(content, "call_back"); !day.empty()) call_.call_back = day;
    } else if (entry.form == forms::visit) {
      ++call_.visits;
    } else if (entry.form == forms::stage) {
      call_.stages.push_back(text_in(content, "stage"));
    }
  }

  void tell_the_work(const Entry& entry, const Told& told, const Json& content) {
    if (entry.form == forms::evidence)
      call_.evidence.push_back({told, text_in(content, "option"), text_in(content, "word")});
    else if (entry.form == forms::agreed)
      call_.agreements.push_back({told, text_in(content, "step")});
    else if (entry.form == forms::note)
      call_.notes.push_back({told, text_in(content, "text")});
    else if (entry.form == forms::reading)
      call_.readings.push_back(measured(told, content));
    else if (entry.form == forms::replaced)
      call_.replaced.push_back(exchanged(told, content));
    else if (entry.form == forms::checked)
      call_.checks.push_back({told, text_in(content, "what"),
                              outcome_named(text_in(content, "outcome")).value_or(Outcome::undecided),
                              text_in(content, "text"), texts_in(content, "lines"), rows_in(content, "figures"),
                              text_in(content, "file")});
  }

  ServiceCall& call_;
};

std::set<std::string> corrected_in(std::span<const Entry> entries) {
  std::set<std::string> ids;
  for (const Entry& entry : entries)
    if (!entry.corrects.empty()) ids.insert(entry.corrects);
  return ids;
}

}  // namespace

bool is_closed(std::string_view state) { return state == is_declined || state == is_repaired || state == is_stopped; }

bool ServiceCall::has_stage(std::string_view stage) const {
  return std::find(stages.begin(), stages.end(), stage) != stages.end();
}

ServiceCall told(std::span<const Entry> entries) {
  const std::set<std::string> corrected = corrected_in(entries);
  ServiceCall call;
  Teller teller(call);
  std::size_t order = 0;
  for (const Entry& entry : entries)
    if (corrected.count(entry.id) == 0 && entry.form != forms::taken_back) teller.tell(entry, order++);
  return call;
}

const Entry* last_to_take_back(std::span<const Entry> entries) {
  const std::set<std::string> corrected = corrected_in(entries);
  for (std::size_t i = entries.size(); i > 0; --i) {
    const Entry& entry = entries[i - 1];
    if (corrected.count(entry.id) == 0 && entry.form != forms::taken_back && entry.form != forms::opened) return &entry;
  }
  return nullptr;
}

}  // namespace ohmwright::job
