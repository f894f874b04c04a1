#include "plugin/trial_report.hpp"

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/paragraph.hpp>

#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

using Json = nlohmann::ordered_json;

const char* outcome_of_trial(int code) {
  return code == exit_done ? "fine" : code == exit_plugin_refused ? "refused" : "to-mend";
}

Json check_json(const TriedCheck& check, const Sentences& say) {
  Json mend = Json::array();
  for (const std::string& one : check.to_mend) mend.push_back(one_line(one));
  Json json = {{"id", check.id},
               {"promise", say(check.title)},
               {"holds", check.to_mend.empty() && check.not_tried.empty()},
               {"to_mend", std::move(mend)}};
  if (!check.not_tried.empty()) json["not_tried"] = say(check.not_tried);
  return json;
}

Json trial_json(const PluginTrial& trial, const Sentences& say) {
  Json json;
  json["file"] = printable(trial.file.string());
  if (!trial.kind.empty()) json["kind"] = trial.kind;
  json["outcome"] = outcome_of_trial(trial.code);
  json["checks"] = Json::array();
  for (const TriedCheck& check : trial.checks) json["checks"].push_back(check_json(check, say));
  json["notes"] = trial.notes;
  return json;
}

}  // namespace

int worse_ending(int a, int b) {
  const auto rank = [](int code) { return code == exit_plugin_refused ? 2 : (code == exit_done ? 0 : 1); };
  return rank(a) >= rank(b) ? a : b;
}

std::string check_lines(const TriedCheck& check, const Sentences& say, int width) {
  const std::string sign = !check.to_mend.empty() ? "  MEND  " : check.not_tried.empty() ? "  ok    " : "  --    ";
  std::string text = paragraph(say(check.title), width, sign, "        ");
  if (!check.not_tried.empty())
    text += paragraph(say(OHMWRIGHT_TEXT("not tried: {why}"), {{"why", say(check.not_tried)}}), width, "        ",
                      "        ");
  constexpr std::size_t most_shown = 12;
  for (std::size_t i = 0; i < check.to_mend.size() && i < most_shown; ++i)
    text += paragraph(one_line(check.to_mend[i]), width, "        - ", "          ");
  if (check.to_mend.size() > most_shown)
    text += paragraph(
        say(OHMWRIGHT_TEXT("and {count} more"), {{"count", std::to_string(check.to_mend.size() - most_shown)}}), width,
        "        - ", "          ");
  return text;
}

std::string note_lines(const std::string& note, int width) {
  return paragraph(one_line(note), width, "  note  ", "        ");
}

std::string trials_json(std::span<const PluginTrial> trials, const Sentences& say) {
  Json json;
  int code = exit_done;
  for (const PluginTrial& trial : trials) code = worse_ending(code, trial.code);
  json["outcome"] = outcome_of_trial(code);
  json["trials"] = Json::array();
  for (const PluginTrial& trial : trials) json["trials"].push_back(trial_json(trial, say));
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace ohmwright::cli
