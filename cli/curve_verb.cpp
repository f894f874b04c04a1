#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/fitting_report.hpp>

#include "circumstances.hpp"
#include "curve_ratings.hpp"
#include "curve_rows.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

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
  refuse_to_overwrite(arguments, "--save");
  refuse_one_file_for_both(arguments, "--out", "--save");
  UnitPreferences units;
  Instruments instruments(arguments, environment);
  const CurveRows rows = gather_rows(arguments, descriptor, instruments, units);
  const FitRequest request{rows.measurand, rows.condition, rows.rows};
  const Fitting fitting = kind.call("fitting a curve", [&] { return kind.kind().fit(request); });
  if (fitting.forms.empty() && fitting.remarks.empty())
    throw InputError("the kind " + std::string(descriptor.id) + " offers no curve of " +
                     std::string(descriptor.measurands[rows.measurand].id));
  const Sentences say(units);
  const bool saved = arguments.has("--save") && !fitting.forms.empty();
  if (saved) save_fitted_ratings(arguments, descriptor, fitting, rows.rows.size(), say);
  FittingReport report{descriptor, request, fitting, rows.names, saved ? as_ratings(arguments.value("--save")) : ""};
  if (!saved && !fitting.forms.empty()) report.wants = wants_of_ratings(fitting.forms.front().ratings, descriptor);
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
