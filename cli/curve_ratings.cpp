#include "curve_ratings.hpp"

#include <algorithm>
#include <filesystem>
#include <string_view>
#include <utility>

#include <ohmwright/component/mean_fit.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/fitting_report.hpp>

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

/// A figure of the ratings as it was typed.
struct SetFigure {
  std::string name;
  std::string text;
};

std::vector<SetFigure> figures_set(const Arguments& arguments) {
  std::vector<SetFigure> figures;
  const auto given = arguments.options.find("--set");
  if (given == arguments.options.end()) return figures;
  for (const std::string& word : given->second) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == word.size())
      throw InputError("--set takes FIGURE=VALUE, such as construction=shaded-pole, got " + ohmwright::quoted(word));
    SetFigure figure{word.substr(0, equals), word.substr(equals + 1)};
    const auto is_same = [&figure](const SetFigure& other) { return other.name == figure.name; };
    if (std::any_of(figures.begin(), figures.end(), is_same))
      throw InputError("--set says " + ohmwright::quoted(figure.name) + " twice; say it once");
    figures.push_back(std::move(figure));
  }
  return figures;
}

/// What stands in the fit's ratings without having come of the rows: how far good parts may be off, by common practice.
bool is_only_assumed(const ValueNode& figure) {
  const ValueNode* source = figure.find("source");
  if (source == nullptr || source->text() == nullptr) return false;
  const std::string& text = *source->text();
  return text.find("no source") != std::string::npos && text.find("fitted") == std::string::npos;
}

/// A figure of the ratings that was typed: a bare number is one, anything else a text. In place of one that has a
/// source beside it, it gets its own.
ValueNode typed_figure(const SetFigure& figure, const ValueNode* assumed) {
  if (assumed != nullptr) return sourced_figure(figure.text, "said with --set, not measured");
  if (figure.text.find_first_not_of("0123456789.-") != std::string::npos) return {figure.text, '/' + figure.name, 0};
  return {parse_stated_value(figure.text, Dimension::ratio).value.value_in_si(), '/' + figure.name, 0};
}

/// The ratings with what `--set` says beside what the rows gave.
ValueNode with_what_was_set(const ValueNode& fitted, const std::vector<SetFigure>& figures) {
  ValueNode::Members members = *fitted.members();
  for (const SetFigure& figure : figures) {
    const ValueNode* given = fitted.find(figure.name);
    if (given != nullptr && !is_only_assumed(*given))
      throw InputError("--set cannot replace " + ohmwright::quoted(figure.name) +
                       ": these rows gave it, and the saved file would call measured what was only said; leave it "
                       "out, or change the saved file, the figure and its source");
    std::erase_if(members, [&figure](const auto& member) { return member.first == figure.name; });
    members.emplace_back(figure.name, typed_figure(figure, given));
  }
  return {std::move(members), fitted.pointer(), fitted.line()};
}

void refuse_incomplete(const ValueNode& ratings, const Descriptor& descriptor) {
  const std::vector<std::string> wants = wants_of_ratings(ratings, descriptor);
  if (wants.empty()) return;
  std::string text = "these ratings cannot be kept as they are: ";
  for (const std::string& want : wants) text += want + "; ";
  throw InputError(text + "what the rows do not tell is said with --set FIGURE=VALUE");
}

/// Where the file's figures come from: the rows, and of what was only said that it was.
std::string source_of(const Arguments& arguments, const FittedRatings& form, std::size_t rows,
                      const std::vector<SetFigure>& figures) {
  const std::string of_rows = arguments.value("--source", "measured: fitted as " + form.form + " to " +
                                                              (rows == 1 ? "one row" : std::to_string(rows) + " rows"));
  if (of_rows.empty()) throw InputError("--title and --source cannot be empty");
  std::string said;
  for (const SetFigure& figure : figures)
    said += (said.empty() ? "; said with --set, not measured: " : ", ") + figure.name;
  return of_rows + said;
}

void refuse_long_source(const std::string& source) {
  constexpr std::size_t most = 200;  // schemas/ratings.schema.json
  if (source.size() > most)
    throw InputError("the source of the ratings would have " + std::to_string(source.size()) + " bytes, and " +
                     std::to_string(most) + " are the most; say --source more briefly");
}

/// Why the rows give no ratings, as the kind says it of all of them.
[[noreturn]] void refuse_withheld(const Fitting& fitting, const Descriptor& descriptor, const Sentences& say) {
  const auto why = std::find_if(fitting.remarks.rbegin(), fitting.remarks.rend(),
                                [](const RowRemark& remark) { return remark.row == all_rows; });
  if (why == fitting.remarks.rend())
    throw InputError(
        "these rows do not give all that ratings need, so nothing is saved; without --save the page says what is "
        "missing");
  throw InputError("nothing is saved: " +
                   say.in_domain(descriptor.text_domain, why->text.english, view(why->arguments)));
}

}  // namespace

std::vector<std::string> wants_of_ratings(const ValueNode& ratings, const Descriptor& descriptor) {
  std::vector<std::string> wants;
  if (ratings.members() == nullptr) return wants;
  for (const Problem& problem : ratings_schema_of(descriptor).problems(ratings))
    wants.push_back((problem.pointer.empty() ? "" : problem.pointer.substr(1) + ": ") + problem.text);
  return wants;
}

void save_fitted_ratings(const Arguments& arguments, const Descriptor& descriptor, const Fitting& fitting,
                         std::size_t rows, const Sentences& say) {
  const std::string path = arguments.value("--save");
  const std::string name = arguments.value("--name", std::filesystem::path(path).stem().string());
  if (!is_ratings_name(name))
    throw InputError("the ratings cannot be called " + ohmwright::quoted(name) +
                     "; choose a name of small letters, digits, . and - with --name");
  FittedRatings form = chosen_form(arguments, fitting);
  if (form.ratings.members() == nullptr) refuse_withheld(fitting, descriptor, say);
  const std::vector<SetFigure> figures = figures_set(arguments);
  form.ratings = with_what_was_set(form.ratings, figures);
  refuse_incomplete(form.ratings, descriptor);
  const RatingsFrame frame{name, arguments.value("--title", name), source_of(arguments, form, rows, figures)};
  if (frame.title.empty()) throw InputError("--title and --source cannot be empty");
  refuse_long_source(frame.source);
  write_file_atomically(path, fitted_ratings_file(descriptor, form, frame));
}

}  // namespace ohmwright::cli
