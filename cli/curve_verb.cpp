#include <algorithm>
#include <filesystem>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/fitting_report.hpp>

#include "circumstances.hpp"
#include "curve_rows.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

const FittedRatings& chosen_form(const Arguments& arguments, const Fitting& fitting) {
  if (!arguments.has("--form")) return fitting.forms.front();
  const std::string name = arguments.value("--form");
  std::string list;
  for (const FittedRatings& form : fitting.forms) {
    if (form.form == name) return form;
    list += (list.empty() ? "" : ", ") + form.form;
  }
  throw InputError("these rows gave no form called " + ohmwright::quoted(name) + "; they gave: " + list);
}

bool is_ratings_name(std::string_view text) {
  const auto is_small = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
  return !text.empty() && is_small(text.front()) &&
         std::all_of(text.begin(), text.end(), [&](char c) { return is_small(c) || c == '-' || c == '.'; });
}

/// A figure of the ratings that was typed: a bare number is one, anything else a text.
ValueNode typed_figure(const std::string& name, const std::string& text) {
  if (text.find_first_not_of("0123456789.-") != std::string::npos) return {text, '/' + name, 0};
  return {parse_stated_value(text, Dimension::ratio).value.value_in_si(), '/' + name, 0};
}

/// The ratings with what `--set` says of them in place of, or beside, what the rows gave.
ValueNode with_what_was_set(const ValueNode& fitted, const Arguments& arguments) {
  const auto given = arguments.options.find("--set");
  if (given == arguments.options.end() || fitted.members() == nullptr) return fitted;
  ValueNode::Members members = *fitted.members();
  for (const std::string& word : given->second) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == word.size())
      throw InputError("--set takes FIGURE=VALUE, such as construction=shaded-pole, got " + ohmwright::quoted(word));
    const std::string name = word.substr(0, equals);
    std::erase_if(members, [&name](const auto& member) { return member.first == name; });
    members.emplace_back(name, typed_figure(name, word.substr(equals + 1)));
  }
  return {std::move(members), fitted.pointer(), fitted.line()};
}

/// What keeps the ratings from being used, by the kind's own schema: mostly what no row can tell.
std::vector<std::string> wants_of(const ValueNode& ratings, const Descriptor& descriptor) {
  std::vector<std::string> wants;
  if (ratings.members() == nullptr) return wants;
  for (const Problem& problem : ratings_schema_of(descriptor).problems(ratings))
    wants.push_back((problem.pointer.empty() ? "" : problem.pointer.substr(1) + ": ") + problem.text);
  return wants;
}

void refuse_incomplete(const ValueNode& ratings, const Descriptor& descriptor) {
  const std::vector<std::string> wants = wants_of(ratings, descriptor);
  if (wants.empty()) return;
  std::string text = "these ratings cannot be kept as they are: ";
  for (const std::string& want : wants) text += want + "; ";
  throw InputError(text + "what the rows do not tell is said with --set FIGURE=VALUE");
}

/// The ratings of the chosen form as a file that `--ratings` reads.
void save(const Arguments& arguments, const Descriptor& descriptor, const Fitting& fitting, std::size_t rows) {
  const std::string path = arguments.value("--save");
  const std::string name = arguments.value("--name", std::filesystem::path(path).stem().string());
  if (!is_ratings_name(name))
    throw InputError("the ratings cannot be called " + ohmwright::quoted(name) +
                     "; choose a name of small letters, digits, . and - with --name");
  FittedRatings form = chosen_form(arguments, fitting);
  if (form.ratings.members() == nullptr)
    throw InputError(
        "these rows do not give all that ratings need, so nothing is saved; without --save the page says "
        "what is missing");
  form.ratings = with_what_was_set(form.ratings, arguments);
  refuse_incomplete(form.ratings, descriptor);
  const RatingsFrame frame{
      name, arguments.value("--title", name),
      arguments.value("--source", "measured: fitted as " + form.form + " to " + std::to_string(rows) + " rows")};
  if (frame.title.empty() || frame.source.empty()) throw InputError("--title and --source cannot be empty");
  write_file_atomically(path, fitted_ratings_file(descriptor, form, frame));
}

/// The saved file as `--ratings` tells it from the name of a class, and as a shell takes it.
std::string as_ratings(const std::string& path) { return shell_word(is_path(path) ? path : "./" + path); }

/// `--out FILE.json` of the page that people read would be taken for ratings by whoever finds it.
void refuse_page_as_ratings(const Arguments& arguments) {
  const std::string out = arguments.value("--out");
  if (!out.ends_with(".json") || arguments.value("--format", "text") == "json") return;
  throw InputError("--out writes the page, which is text; for ratings write --save " + shell_word(out) +
                   ", for the figures as JSON add --format json");
}

int run_curve(const Arguments& arguments, Environment& environment) {
  const LoadedKind& kind = kind_typed(environment, arguments.operands);
  const Descriptor& descriptor = kind.descriptor();
  if (!arguments.has("--save"))
    for (const char* option : {"--form", "--name", "--title", "--source", "--set"})
      if (arguments.has(option)) throw InputError(std::string(option) + " says what --save writes; add --save FILE");
  refuse_page_as_ratings(arguments);
  UnitPreferences units;
  Instruments instruments(arguments, environment);
  const CurveRows rows = gather_rows(arguments, descriptor, instruments, units);
  const FitRequest request{rows.measurand, rows.condition, rows.rows};
  const Fitting fitting = kind.call("fitting a curve", [&] { return kind.kind().fit(request); });
  if (fitting.forms.empty() && fitting.remarks.empty())
    throw InputError("the kind " + std::string(descriptor.id) + " offers no curve of " +
                     std::string(descriptor.measurands[rows.measurand].id));
  const bool saved = arguments.has("--save") && !fitting.forms.empty();
  if (saved) save(arguments, descriptor, fitting, rows.rows.size());
  FittingReport report{descriptor, request, fitting, rows.names, saved ? as_ratings(arguments.value("--save")) : ""};
  if (!saved && !fitting.forms.empty()) report.wants = wants_of(fitting.forms.front().ratings, descriptor);
  const Sentences say(units);
  deliver(arguments.value("--format", "text") == "json" ? fitting_json(report, say)
                                                        : fitting_page(report, say, environment.page),
          arguments, environment);
  return fitting.forms.empty() ? exit_refused : exit_done;
}

}  // namespace

VerbSpec curve_verb() {
  return {
      .name = "curve",
      .summary = OHMWRIGHT_TEXT("Ratings from measured rows: which curve fits, how well, and which rows break it"),
      .example = "ohmwright curve thermistor 32.65k@0C 19.90k@10C 12.49k@20C 8.06k@30C 5.32k@40C",
      .operands = {{"KIND", OHMWRIGHT_TEXT("What the part is: a kind or what people call it (see: ohmwright kinds)"),
                    true, false},
                   {"READING", OHMWRIGHT_TEXT("A row as a reading with its condition: 32.65k@0C"), false, true}},
      .options =
          {
              {"--series",
               "FILE",
               OHMWRIGHT_TEXT("A table of rows, its first line naming the columns; - for standard input"),
               {}},
              {"--of",
               "NAME",
               OHMWRIGHT_TEXT("Which of the kind's readings the rows hold (default: that of the first)"),
               {}},
              {"--meter", "NAME|FILE", OHMWRIGHT_TEXT("The meter of the rows"), {}, true},
              {"--save", "FILE", OHMWRIGHT_TEXT("Write the best form there, as ratings that check can use"), {}},
              {"--form", "NAME", OHMWRIGHT_TEXT("Save this form instead of the best"), {}},
              {"--name", "NAME", OHMWRIGHT_TEXT("What the saved ratings are called (default: as their file)"), {}},
              {"--title", "TEXT", OHMWRIGHT_TEXT("How the saved ratings are shown"), {}},
              {"--source", "TEXT", OHMWRIGHT_TEXT("Where the rows come from"), {}},
              {"--set",
               "FIGURE=VALUE",
               OHMWRIGHT_TEXT("What the rows do not tell of the saved ratings: construction=shaded-pole"),
               {},
               true},
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default) or json"), {"text", "json"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {circumstance_options().begin(), circumstance_options().end()},
      .takes_conditions = true,
      .run = run_curve,
  };
}

}  // namespace ohmwright::cli
