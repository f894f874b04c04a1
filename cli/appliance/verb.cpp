#include <algorithm>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/locate/separation.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/appliance_report.hpp>
#include <ohmwright/report/appliance_words.hpp>

#include "appliance/add.hpp"
#include "appliance/files.hpp"
#include "appliance/marks.hpp"
#include "appliance/new.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "made_with.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// Graphviz where somebody asked for a picture and it is not there.
std::string drawn_or_refused(const Appliance& appliance, const PartMarks& marks, const Sentences& say) {
  if (std::optional<std::string> svg = appliance_drawing(appliance, marks, say)) return *std::move(svg);
  throw InputError(
      "drawing needs the program dot of Graphviz, which is not there or failed; install the package graphviz, or take "
      "the description with --format dot");
}

int list(const Arguments& /*arguments*/, Environment& environment) {
  const std::string folder = environment.locations.appliances.string();
  for (const std::string& name : names_in_folder(folder)) {
    std::string title;
    try {
      title = in_readers_words(
          text_of(read_document((environment.locations.appliances / (name + ".json")).string()).root, "title"));
    } catch (const Error& error) {
      title = error.what();
    }
    environment.out << name << '\n' << paragraph(title, environment.page.width, "  ", "  ");
  }
  return exit_done;
}

int show(const Arguments& arguments, Environment& environment) {
  const Appliance appliance = open_appliance(environment, arguments.operands[1]);
  const Sentences say{UnitPreferences{}};
  if (arguments.value("--format", "text") == "html")
    deliver(appliance_html(appliance, say, appliance_drawing(appliance, {}, say).value_or(""), made_with()), arguments,
            environment);
  else
    deliver(appliance_page(appliance, say, environment.page), arguments, environment);
  return exit_done;
}

/// What connections tell, and, of a file that is not to be mended first, what the values of its network tell.
std::vector<ApplianceFinding> all_findings(const Appliance& appliance, const Meter& meter) {
  std::vector<ApplianceFinding> findings = check_appliance(appliance);
  if (std::any_of(findings.begin(), findings.end(), [](const ApplianceFinding& one) { return is_wrong(one.form); }))
    return findings;
  const std::vector<ApplianceFinding> by_value = locate::never_told_apart(appliance, meter, findings);
  findings.insert(findings.end(), by_value.begin(), by_value.end());
  return findings;
}

int check(const Arguments& arguments, Environment& environment) {
  const Appliance appliance = open_appliance(environment, arguments.operands[1]);
  const std::vector<ApplianceFinding> findings = all_findings(appliance, chosen_meter(environment, ""));
  const Sentences say{UnitPreferences{}};
  deliver(arguments.value("--format", "text") == "json" ? findings_json(appliance, findings, say)
                                                        : findings_page(appliance, findings, say, environment.page),
          arguments, environment);
  const bool mend =
      std::any_of(findings.begin(), findings.end(), [](const ApplianceFinding& one) { return is_wrong(one.form); });
  return mend ? exit_out_of_limits : exit_done;
}

int draw(const Arguments& arguments, Environment& environment) {
  const Appliance appliance = open_appliance(environment, arguments.operands[1]);
  const Sentences say{UnitPreferences{}};
  const PartMarks marks = typed_marks(arguments, appliance, say);
  deliver(arguments.value("--format", "svg") == "dot" ? drawing_script(appliance, marks, say)
                                                      : drawn_or_refused(appliance, marks, say),
          arguments, environment);
  return exit_done;
}

/// What can be done with appliances, each with the formats it gives.
struct Action {
  std::string_view name;
  bool takes_appliance = true;
  std::vector<std::string_view> formats;
  std::vector<std::string_view> options;  ///< beside --format and --out
  int (*run)(const Arguments&, Environment&) = nullptr;
};

std::vector<Action> actions() {
  return {{"list", false, {}, {}, list},
          {"show", true, {"text", "html"}, {}, show},
          {"check", true, {"text", "json"}, {}, check},
          {"draw", true, {"svg", "dot"}, {"--mark", "--after"}, draw},
          {"new", false, {}, {"--answer"}, new_appliance},
          {"add", true, {}, {"--part", "--between", "--ratings", "--title", "--splice"}, add_to_appliance}};
}

void check_words(const Action& action, const Arguments& arguments) {
  const std::string name(action.name);
  if (action.takes_appliance && arguments.operands.size() < 2)
    throw InputError("missing: APPLIANCE; ohmwright appliance " + name +
                     " takes the name of a shipped one (ohmwright appliance list) or a file");
  if (!action.takes_appliance && arguments.operands.size() > 1)
    throw InputError("one word too many: " + ohmwright::quoted(arguments.operands[1]) + "; ohmwright appliance " +
                     name + " takes none");
  const std::string format = arguments.value("--format");
  if (!format.empty() && std::find(action.formats.begin(), action.formats.end(), format) == action.formats.end())
    throw InputError("appliance " + name + (action.formats.empty() ? " takes no --format" : " has the formats ") +
                     listed(action.formats) + (action.formats.empty() ? "" : ", got " + ohmwright::quoted(format)));
  for (const char* option :
       {"--mark", "--after", "--answer", "--part", "--between", "--ratings", "--title", "--splice"})
    if (arguments.has(option) &&
        std::find(action.options.begin(), action.options.end(), option) == action.options.end())
      throw InputError("appliance " + name + " takes no " + option);
}

int run_appliance(const Arguments& arguments, Environment& environment) {
  const std::string& typed = arguments.operands[0];
  std::vector<std::string> names;
  for (const Action& action : actions()) {
    names.emplace_back(action.name);
    if (action.name != typed) continue;
    check_words(action, arguments);
    return action.run(arguments, environment);
  }
  throw InputError("appliance cannot " + ohmwright::quoted(typed) + did_you_mean(typed, names) +
                   "; it can: " + listed(names));
}

}  // namespace

VerbSpec appliance_verb() {
  return {
      .name = "appliance",
      .summary = OHMWRIGHT_TEXT("List, show, check and draw appliances, or make the file of one"),
      .example = "ohmwright appliance show vented-dryer-230v",
      .operands = {{"ACTION",
                    OHMWRIGHT_TEXT("list, show, check, draw, new or add"),
                    true,
                    false,
                    {"list", "show", "check", "draw", "new", "add"}},
                   {"APPLIANCE", OHMWRIGHT_TEXT("A shipped appliance or a file (add: a file)"), false, false}},
      .options =
          {
              {"--format",
               "FORMAT",
               OHMWRIGHT_TEXT("show: text or html; check: text or json; draw: svg or dot"),
               {"text", "html", "json", "svg", "dot"}},
              {"--mark",
               "PART=PROBABILITY",
               OHMWRIGHT_TEXT("draw: mark a part as possibly at fault; may be given again"),
               {},
               true},
              {"--after", "FILE", OHMWRIGHT_TEXT("draw: mark the possible faults that locate --format json gave"), {}},
              {"--answer",
               "QUESTION=CHOICE",
               OHMWRIGHT_TEXT("new: answer a question beforehand: volts=120; may be given again"),
               {},
               true},
              {"--part", "ID=KIND", OHMWRIGHT_TEXT("add: a part found on site"), {}},
              {"--between", "NODE,NODE", OHMWRIGHT_TEXT("add: where that part's terminals are, in their order"), {}},
              {"--ratings", "NAME", OHMWRIGHT_TEXT("add: the class of that part (default: nothing is known)"), {}},
              {"--title", "WORDS", OHMWRIGHT_TEXT("add: what people call that part"), {}},
              {"--splice", "PART.TERMINAL", OHMWRIGHT_TEXT("add: a splice found at that terminal"), {}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there (default: the terminal; add: the file itself)"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_appliance,
  };
}

}  // namespace ohmwright::cli
