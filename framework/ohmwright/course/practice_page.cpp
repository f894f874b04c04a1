#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include <ohmwright/course/paper_page.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/practice_page.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>

namespace ohmwright::course {

namespace {

using Words = std::vector<std::pair<std::string, std::string>>;

/// What stands in the page where its body names it.
Words words_of_body(const Exercise& exercise, const Sentences& say) {
  return {{"about_looks", remark_on_looks(exercise, say)},
          {"cautions_title", say(OHMWRIGHT_TEXT("Before you touch it"))},
          {"plates_title", say(OHMWRIGHT_TEXT("What is stamped on the parts"))},
          {"temperatures_title", say(OHMWRIGHT_TEXT("How warm it is, as found"))},
          {"unplug", say(OHMWRIGHT_TEXT("Unplug"))},
          {"prove_dead", say(OHMWRIGHT_TEXT("Prove dead"))},
          {"plug_in", say(OHMWRIGHT_TEXT("Plug in"))},
          {"measure", say(OHMWRIGHT_TEXT("Measure"))},
          {"display", say(OHMWRIGHT_TEXT("what the meter shows"))},
          {"point", say(OHMWRIGHT_TEXT("Test point"))},
          {"set_up", say(OHMWRIGHT_TEXT("After which set-up"))},
          {"leads", say(OHMWRIGHT_TEXT("The leads there"))},
          {"lead_off", say(OHMWRIGHT_TEXT("lead off"))},
          {"in_circuit", say(OHMWRIGHT_TEXT("in circuit"))},
          {"range", say(OHMWRIGHT_TEXT("Range"))},
          {"agree", say(OHMWRIGHT_TEXT("I am qualified for live measurement and agree to it"))},
          {"read", say(OHMWRIGHT_TEXT("Put the probes on"))},
          {"look_title", say(OHMWRIGHT_TEXT("Look"))},
          {"look", say(OHMWRIGHT_TEXT("Is this so?"))},
          {"look_button", say(OHMWRIGHT_TEXT("Look at it"))},
          {"note", say(OHMWRIGHT_TEXT("A note of your own"))},
          {"note_button", say(OHMWRIGHT_TEXT("Note it"))},
          {"done_title", say(OHMWRIGHT_TEXT("What you did"))},
          {"done", say(OHMWRIGHT_TEXT("Tick the readings that your answer rests on."))},
          {"answer_title", say(OHMWRIGHT_TEXT("Answer"))},
          {"first", say(OHMWRIGHT_TEXT("At fault"))},
          {"second", say(OHMWRIGHT_TEXT("And also"))},
          {"confidence", say(OHMWRIGHT_TEXT("How sure you are, in percent"))},
          {"why", say(OHMWRIGHT_TEXT("Why, in your own words"))},
          {"who", say(OHMWRIGHT_TEXT("Names and roles, a semicolon between them"))},
          {"give", say(OHMWRIGHT_TEXT("Give this answer"))},
          {"hand_in_title", say(OHMWRIGHT_TEXT("Hand in"))},
          {"hand_in", say(OHMWRIGHT_TEXT("Save the record and hand it in as it is, or copy it from the box."))},
          {"save", say(OHMWRIGHT_TEXT("Save the record"))},
          {"record", say(OHMWRIGHT_TEXT("The record"))},
          {"go_on", say(OHMWRIGHT_TEXT("It is mine: go on"))},
          {"anew", say(OHMWRIGHT_TEXT("Begin anew"))},
          {"anew_below", say(OHMWRIGHT_TEXT("Somebody else's turn? Save the record first: it is put away, and the next "
                                            "one sees nothing of it."))},
          {"before_plugging_in", say(before_plugging_in())}};
}

/// What the script says.
std::string words_of_script(const Sentences& say) {
  nlohmann::ordered_json json;
  for (const std::string_view hazard : {ohms_on_live, not_proved_dead, opened_while_live})
    json[std::string(hazard)] = say(hazard_text(hazard));
  for (const char* shown : {"yes", "no", "dead", "LIVE"}) {
    Entry entry;
    entry.shown = shown;
    json["shown"][shown] = shown_in_words(entry, say);
  }
  json["as_found"] = say(OHMWRIGHT_TEXT("none, as found"));
  json["range_auto"] = say(OHMWRIGHT_TEXT("the meter's own choice"));
  json["plugged_in"] = say(OHMWRIGHT_TEXT("Plugged in"));
  json["unplugged"] = say(OHMWRIGHT_TEXT("Unplugged, not proved dead"));
  json["proved_dead"] = say(OHMWRIGHT_TEXT("Unplugged and proved dead"));
  json["lead_off"] = say(OHMWRIGHT_TEXT("lead off"));
  json["in_circuit"] = say(OHMWRIGHT_TEXT("in circuit"));
  json["choose_leads"] = say(OHMWRIGHT_TEXT("Say whether the lead is off or the leads stay in circuit."));
  json["needs_supply"] = say(OHMWRIGHT_TEXT("That set-up needs the supply: plug in first."));
  json["agree_live"] = say(OHMWRIGHT_TEXT("This is a live measurement: tick that you agree to it, or unplug."));
  json["not_here"] = say(OHMWRIGHT_TEXT("This combination is not to be measured here."));
  json["was_stopped"] = say(OHMWRIGHT_TEXT("The exercise was stopped. What is left is the answer."));
  json["was_answered"] = say(OHMWRIGHT_TEXT("The answer was given."));
  json["check_word"] =
      say(OHMWRIGHT_TEXT("Check word, for your sheet and your instructor: {word}"), {{"word", "{word}"}});
  json["kept"] = say(OHMWRIGHT_TEXT("A record of this exercise lies on this computer: begun {begun}, {count} entries, "
                                    "names: {names}."),
                     {{"begun", "{begun}"}, {"count", "{count}"}, {"names", "{names}"}});
  json["too_unsure"] = say(OHMWRIGHT_TEXT("The likeliest of all answers is at least {least} % likely: give the one you "
                                          "hold for likelier, or state that."),
                           {{"least", "{least}"}});
  json["say_confidence"] = say(OHMWRIGHT_TEXT("Say how sure you are: a number from 0 to 100."));
  json["hand_in"] = say(OHMWRIGHT_TEXT("Answered. Save the record and hand it in as it is."));
  json["nothing_wrong"] = say(OHMWRIGHT_TEXT("nothing: no part is at fault"));
  json["nothing_more"] = say(OHMWRIGHT_TEXT("nothing more"));
  return json.dump();
}

std::string with_words(std::string_view body, const Words& words) {
  std::string text(body);
  for (const auto& [name, word] : words) {
    const std::string field = "{" + name + "}";
    for (std::size_t at = text.find(field); at != std::string::npos; at = text.find(field, at))
      text.replace(at, field.size(), html_text(word));
  }
  return text;
}

/// JSON that ends no script: "<" can stand in its texts only, where it may be written so.
std::string inside_script(std::string_view json) {
  std::string text;
  for (const char letter : json) text += letter == '<' ? std::string("\\u003c") : std::string(1, letter);
  return text;
}

}  // namespace

std::string practice_page(const Exercise& exercise, std::string_view file, const Sentences& say) {
  std::string page =
      "<!DOCTYPE html>\n<html lang=\"" + html_text(language_of_texts()) +
      "\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
      "script-src "
      "'unsafe-inline'\">\n<title>";
  page.append(html_text(exercise.title)).append("</title>\n<style>\n").append(page_style()).append("</style>\n");
  page.append("</head>\n<body>\n").append(with_words(page_body(), words_of_body(exercise, say)));
  page.append("<script type=\"application/json\" id=\"words\">").append(inside_script(words_of_script(say)));
  page.append("</script>\n<script type=\"application/json\" id=\"exercise\" data-hash=\"").append(sha256_text(file));
  page.append("\">").append(inside_script(file)).append("</script>\n<script>\n").append(page_script());
  return page.append("</script>\n</body>\n</html>\n");
}

}  // namespace ohmwright::course
