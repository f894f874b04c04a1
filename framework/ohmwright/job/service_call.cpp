#include <algorithm>
#include <iterator>
#include <set>

#include <nlohmann/json.hpp>

#include <ohmwright/document/json_fields.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/job/service_call.hpp>

namespace ohmwright::job {

namespace {

using Json = nlohmann::ordered_json;
using json_fields::flag_in;
using json_fields::json_in;
using json_fields::number_in;
using json_fields::rows_in;
using json_fields::text_in;
using json_fields::texts_in;

std::vector<SafetyFinding> safety_in(const Json& object) {
  std::vector<SafetyFinding> all;
  const auto found = object.find("safety");
  if (found == object.end() || !found->is_array()) return all;
  for (const Json& item : *found)
    if (item.is_object())
      all.push_back({text_in(item, "rule"), outcome_named(text_in(item, "outcome")).value_or(Outcome::undecided),
                     outcome_named(text_in(item, "without_earth")), flag_in(item, "low_voltage")});
  return all;
}

MeasuredValue measured(const Told& told, const Json& content) {
  MeasuredValue value;
  static_cast<Told&>(value) = told;
  value.place = text_in(content, "place");
  value.title = text_in(content, "title");
  value.point = text_in(content, "point");
  value.shown = text_in(content, "shown");
  value.reads = text_in(content, "reads");
  value.beside = text_in(content, "beside");
  value.word = text_in(content, "word");
  value.zones = texts_in(content, "zones");
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
  value.for_good = outcome_named(text_in(content, "for_good"));
  value.open_where_warm = flag_in(content, "open_where_warm");
  value.lacks_earth = flag_in(content, "lacks_earth");
  value.as_it_should = flag_in(content, "as_it_should");
  return value;
}

Overheating overheating_in(const Json& object) {
  const auto found = object.find("overheating");
  if (found == object.end() || !found->is_object()) return {};
  return {true, texts_in(*found, "parts"), texts_in(*found, "movers"), texts_in(*found, "causes")};
}

ReplacedPart exchanged(const Told& told, const Json& content) {
  ReplacedPart part;
  static_cast<Told&>(part) = told;
  part.part = text_in(content, "part");
  part.title = text_in(content, "title");
  part.kind = text_in(content, "kind");
  part.mended = text_in(content, "mended");
  part.old_ratings = text_in(content, "old");
  part.old_title = text_in(content, "old_title");
  part.new_ratings = text_in(content, "new");
  part.new_file = json_in(content, "new_file");
  part.new_title = text_in(content, "new_title");
  part.equivalence = outcome_named(text_in(content, "equivalence")).value_or(Outcome::undecided);
  part.differences = texts_in(content, "differences");
  part.because = text_in(content, "because");
  part.tells_insulation = flag_in(content, "tells_insulation");
  part.asks_circuit_insulation = flag_in(content, "asks_circuit_insulation");
  part.bears_test_volts = !flag_in(content, "no_test_volts");
  part.has_earth = flag_in(content, "has_earth");
  part.opens_for_good = flag_in(content, "opens_for_good");
  part.trips_by_heat = flag_in(content, "trips_by_heat");
  part.overheating = overheating_in(content);
  part.read_through = text_in(content, "read_through");
  return part;
}

/// One entry after the other, into the call.
class Teller {
 public:
  explicit Teller(ServiceCall& call) : call_(call) {}

  void tell(const Entry& entry, std::size_t order) {
    const std::optional<EntryForm> form = entry_form_named(entry.form);
    const Json content = Json::parse(entry.content, nullptr, false);
    if (!form || !content.is_object()) return;
    call_.who = entry.who;
    const Told told{entry.id, entry.when(), call_.visit_at(entry.when()), order};
    for (const std::string& id : texts_in(content, "cautions"))
      if (std::find(call_.cautions.begin(), call_.cautions.end(), id) == call_.cautions.end())
        call_.cautions.push_back(id);
    tell_the_frame(*form, told, content);
  }

 private:
  void tell_the_frame(EntryForm form, const Told& told, const Json& content) {
    switch (form) {
      case EntryForm::opened:
        call_.title = text_in(content, "title");
        call_.complaint = text_in(content, "complaint");
        call_.opened_at = told.when;
        return;
      case EntryForm::phone:
        return tell_the_phone(told, content);
      case EntryForm::appliance:
        call_.appliance = text_in(content, "name");
        call_.appliance_file = json_in(content, "file");
        call_.refrigerant = text_in(content, "refrigerant");
        return;
      case EntryForm::state:
        return tell_the_state(told, content);
      case EntryForm::visit:
        ++call_.visits;
        call_.visits_began.push_back(told.when);
        return;
      case EntryForm::stage:
        if (const std::optional<Stage> stage = stage_named(text_in(content, "stage")))
          call_.stages.push_back({told, *stage});
        return;
      default:
        return tell_the_work(form, told, content);
    }
  }

  void tell_the_phone(const Told& told, const Json& content) {
    for (const auto& [question, answer] : content.items()) {
      if (!answer.is_string()) continue;
      call_.phone[question] = answer.get<std::string>();
      call_.answered[question] = told;
    }
  }

  void tell_the_state(const Told& told, const Json& content) {
    const std::optional<JobState> state = job_state_named(text_in(content, "state"));
    if (!state) return;
    call_.state = *state;
    call_.state_reason = text_in(content, "reason");
    call_.state_since = told.when;
    if (*state == JobState::repaired) call_.repairs_closed = call_.replaced.size();
    call_.call_back = text_in(content, "call_back");  // a day that was said with an earlier state went with it
  }

  void tell_the_work(EntryForm form, const Told& told, const Json& content) {
    switch (form) {
      case EntryForm::evidence:
        call_.evidence.push_back(
            {told, text_in(content, "option"), text_in(content, "word"), json_in(content, "file")});
        return;
      case EntryForm::agreed:
        call_.agreements.push_back({told, text_in(content, "step")});
        return;
      case EntryForm::note:
        call_.notes.push_back({told, text_in(content, "text")});
        return;
      case EntryForm::reading:
        call_.readings.push_back(measured(told, content));
        return;
      case EntryForm::replaced:
      case EntryForm::mended:
        call_.replaced.push_back(exchanged(told, content));
        return;
      case EntryForm::checked:
        if (const std::optional<CheckForm> check = check_form_named(text_in(content, "what")))
          call_.checks.push_back({told, *check, outcome_named(text_in(content, "outcome")).value_or(Outcome::undecided),
                                  text_in(content, "text"), texts_in(content, "lines"), rows_in(content, "figures"),
                                  text_in(content, "file"), json_in(content, "drawing"), text_in(content, "result")});
        return;
      default:
        return;
    }
  }

  ServiceCall& call_;
};

/// What was written down together bears the id of the first of it; else an entry is an answer by itself.
std::string act_of(const Entry& entry) {
  const Json content = Json::parse(entry.content, nullptr, false);
  std::string act = content.is_object() ? text_in(content, std::string(act_field).c_str()) : std::string();
  return act.empty() ? entry.id : act;
}

std::set<std::string> corrected_in(std::span<const Entry> entries) {
  std::set<std::string> ids;
  for (const Entry& entry : entries)
    if (!entry.corrects.empty()) ids.insert(entry.corrects);
  return ids;
}

/// Whether a job that waits for a log waits no more: it is there and decides something, or what was found meanwhile
/// makes the appliance unsafe to run for days.
bool waits_no_more(const ServiceCall& call) {
  const bool is_there = std::any_of(call.checks.begin(), call.checks.end(), [&](const Check& check) {
    return check.form == CheckForm::log && check.outcome != Outcome::undecided && check.when >= call.state_since;
  });
  return is_there || !bars_to_leaving_it_plugged_in(call).empty();
}

}  // namespace

bool is_before_minute_of(std::string_view began, std::string_view when) {
  constexpr std::size_t to_the_minute = std::string_view("2026-03-01T14:30").size();
  return when.substr(0, to_the_minute) < began.substr(0, to_the_minute);
}

bool ServiceCall::has_stage(Stage stage) const {
  return std::any_of(stages.begin(), stages.end(), [stage](const DoneStage& done) { return done.stage == stage; });
}

bool ServiceCall::has_stage_since(Stage stage, const Told& since) const {
  return std::any_of(stages.begin(), stages.end(),
                     [&](const DoneStage& done) { return done.stage == stage && !done.happened_before(since); });
}

bool ServiceCall::has_new_repair() const { return replaced.size() > repairs_closed; }

const ReplacedPart* ServiceCall::last_work() const {
  return latest(replaced, [](const ReplacedPart&) { return true; });
}

const ReplacedPart* ServiceCall::last_work_on(std::string_view part) const {
  return latest(replaced, [part](const ReplacedPart& work) { return work.part == part; });
}

const ReplacedPart* ServiceCall::last_new(std::string_view part) const {
  return latest(replaced, [part](const ReplacedPart& work) { return work.part == part && !work.was_mended(); });
}

std::map<std::string, const ReplacedPart*> ServiceCall::last_work_on_each() const {
  return latest_of_each(
      replaced, [](const ReplacedPart& work) { return work.part; }, [](const ReplacedPart&) { return true; });
}

const MeasuredValue* ServiceCall::last_reading_at(std::string_view place) const {
  return latest(readings, [place](const MeasuredValue& reading) { return reading.place_read() == place; });
}

std::size_t ServiceCall::visit_at(std::string_view when) const {
  std::size_t visit = 1;
  for (std::size_t i = 0; i < visits_began.size(); ++i)
    if (!is_before_minute_of(visits_began[i], when)) visit = i + 2;
  return visit;
}

bool ServiceCall::agreed_to_live_work() const {
  return std::any_of(agreements.begin(), agreements.end(),
                     [this](const WrittenNote& agreement) { return agreement.visit == visits; });
}

ServiceCall told(std::span<const Entry> entries) {
  const std::set<std::string> corrected = corrected_in(entries);
  ServiceCall call;
  Teller teller(call);
  std::size_t order = 0;
  for (const Entry& entry : entries)
    if (corrected.count(entry.id) == 0 && !entry.is(EntryForm::taken_back)) teller.tell(entry, order++);
  if (call.state == JobState::waits_for_log && waits_no_more(call)) call.state = JobState::open;
  return call;
}

ServiceCall told_until(std::span<const Entry> entries, const std::string& time) {
  std::vector<Entry> until;
  std::copy_if(entries.begin(), entries.end(), std::back_inserter(until),
               [&](const Entry& entry) { return entry.when() <= time || entry.is(EntryForm::taken_back); });
  return told(until);
}

bool is_corrected(std::span<const Entry> entries, const Entry& entry) {
  return std::any_of(entries.begin(), entries.end(), [&](const Entry& other) { return other.corrects == entry.id; });
}

std::vector<const Entry*> last_to_take_back(std::span<const Entry> entries) {
  const std::set<std::string> corrected = corrected_in(entries);
  std::set<std::string> acts_of_taking_back;
  for (const Entry& entry : entries)
    if (entry.is(EntryForm::taken_back)) acts_of_taking_back.insert(act_of(entry));
  std::string act;
  std::vector<const Entry*> answer;
  for (std::size_t i = entries.size(); i > 0; --i) {
    const Entry& entry = entries[i - 1];
    if (corrected.count(entry.id) > 0 || entry.is(EntryForm::opened)) continue;
    const std::string of = act_of(entry);
    if (acts_of_taking_back.count(of) > 0) continue;
    if (act.empty()) act = of;
    if (act == of) answer.insert(answer.begin(), &entry);
  }
  return answer;
}

}  // namespace ohmwright::job
