#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/fitting_report.hpp>

namespace ohmwright {

namespace {

/// A number to the place that its uncertainty reaches, two digits of it (GUM 7.2.6), without an exponent where a reader
/// can do without.
std::string number_text(double value, double uncertainty) {
  const double magnitude = std::abs(value);
  if (!(uncertainty > 0.0)) return fmt::format("{:.8g}", value);
  const int decimals = 1 - static_cast<int>(std::floor(std::log10(uncertainty)));
  constexpr int most_decimals = 6;
  if (magnitude < 1e7 && decimals <= most_decimals) return fmt::format("{:.{}f}", value, std::max(decimals, 0));
  const double digits = magnitude > 0.0 ? std::floor(std::log10(magnitude)) + decimals : 2.0;
  return fmt::format("{:.{}e}", value, std::clamp(static_cast<int>(digits), 1, 15));
}

/// A number of the ratings with its doubt and their unit, as the reader sees them.
struct ShownFigure {
  double value = 0.0;
  double standard_uncertainty = 0.0;
  std::string unit;
};

/// A point on the scale of temperature in the unit that the reader typed. Every other figure stays as the ratings hold
/// it, so that it can be compared with them.
ShownFigure shown(const FittedFigure& figure, const Sentences& say) {
  const std::string unit = figure.unit == "ohm" ? "Ω" : figure.unit;
  if (figure.unit != "degC") return {figure.value, figure.standard_uncertainty, unit};
  constexpr double freezing_point = 273.15;  // kelvin
  const double kelvin = figure.value + freezing_point;
  const Unit typed = say.unit_for({Dimension::temperature, kelvin});
  return {typed.from_si(kelvin), typed.of_differences().from_si(figure.standard_uncertainty),
          typed.symbol(Spelling::screen)};
}

/// With its sign, but without that of a zero.
std::string signed_text(double value) {
  std::string text = fmt::format("{:+.3f}", value);
  if (text == "-0.000") text.front() = '+';
  return text;
}

std::string padded_left(const std::string& text, int columns) {
  return std::string(static_cast<std::size_t>(std::max(0, columns - columns_of(text))), ' ') + text;
}

std::string padded_right(const std::string& text, int columns) {
  return text + std::string(static_cast<std::size_t>(std::max(0, columns - columns_of(text))), ' ');
}

/// Writes the page of one fitting.
class FittingWriter {
 public:
  FittingWriter(const FittingReport& report, const Sentences& say, const PageStyle& style)
      : report_(report), say_(say), width_(std::clamp(style.width, 30, 100)) {}

  std::string write() {
    const std::string kind = say_.in_domain(report_.descriptor.text_domain, report_.descriptor.title);
    const std::size_t rows = report_.request.rows.size();
    if (rows == 1)
      line(OHMWRIGHT_TEXT("{kind}: ratings from one row"), {{"kind", kind}});
    else
      line(OHMWRIGHT_TEXT("{kind}: ratings from {count} rows"), {{"kind", kind}, {"count", std::to_string(rows)}});
    remarks();
    for (const FittedRatings& form : report_.fitting.forms) write_form(form);
    residuals();
    page_ += '\n';
    if (report_.fitting.forms.empty())
      line(OHMWRIGHT_TEXT("No ratings could be made from these rows."), {});
    else
      how_to_use();
    return std::move(page_);
  }

 private:
  void line(std::string_view pattern, std::initializer_list<FindingArgument> arguments, std::string_view indent = "") {
    page_ += paragraph(say_(pattern, arguments), width_, indent, indent);
  }

  std::string row_name(std::size_t row) const {
    return row < report_.row_names.size() ? report_.row_names[row] : std::to_string(row + 1);
  }

  void remarks() {
    if (report_.fitting.remarks.empty()) return;
    page_ += '\n' + say_(OHMWRIGHT_TEXT("Look at these rows")) + '\n';
    for (const RowRemark& remark : report_.fitting.remarks)
      page_ += paragraph(remark_text(remark), width_, "  - ", "    ");
  }

  std::string remark_text(const RowRemark& remark) const {
    const FindingArgument why{
        "why", say_.in_domain(report_.descriptor.text_domain, remark.text.english, view(remark.arguments))};
    if (remark.row == all_rows) return say_(OHMWRIGHT_TEXT("all rows: {why}"), {why});
    const FindingArgument row{"row", row_name(remark.row)};
    return remark.left_out ? say_(OHMWRIGHT_TEXT("{row}, left out: {why}"), {row, why})
                           : say_(OHMWRIGHT_TEXT("{row}, kept: {why}"), {row, why});
  }

  /// The command that judges a part by what came of the rows.
  void how_to_use() {
    const FindingArgument kind{"kind", std::string(report_.descriptor.id)};
    if (report_.fitting.forms.front().ratings.members() == nullptr)
      return line(OHMWRIGHT_TEXT("These rows give no ratings that a part could be judged by: see above."), {});
    for (const std::string& want : report_.wants)
      line(OHMWRIGHT_TEXT("What the rows do not tell, say where the form is kept, with --set FIGURE=VALUE: {want}"),
           {{"want", want}});
    if (report_.saved_as.empty())
      line(OHMWRIGHT_TEXT("The best form stands first. Keep it with --save my-part.json, and judge a part by it: "
                          "ohmwright check {kind} READING --ratings my-part.json"),
           {kind});
    else
      line(OHMWRIGHT_TEXT("Saved. Judge a part by it: ohmwright check {kind} READING --ratings {file}"),
           {kind, {"file", report_.saved_as}});
  }

  bool is_left_out(std::size_t row) const {
    const auto& remarks = report_.fitting.remarks;
    return std::any_of(remarks.begin(), remarks.end(),
                       [&](const RowRemark& remark) { return remark.left_out && remark.row == row; });
  }

  void write_form(const FittedRatings& form) {
    page_ += '\n';
    if (form.standard_deviation.value_in_si() > 0.0)
      line(
          OHMWRIGHT_TEXT("{form}: holds from {from} to {to}; its rows lie {scatter} from it (standard deviation)"),
          {{"form", form.form}, {"from", form.from}, {"to", form.to}, {"scatter", fine_text(form.standard_deviation)}});
    else
      line(OHMWRIGHT_TEXT("{form}: holds from {from} to {to}; it agrees with every row used"),
           {{"form", form.form}, {"from", form.from}, {"to", form.to}});
    for (const FittedFigure& figure : form.figures) page_ += paragraph(figure_text(figure), width_, "    ", "      ");
  }

  std::string figure_text(const FittedFigure& figure) const {
    const ShownFigure reader = shown(figure, say_);
    const std::string unit = reader.unit.empty() ? "" : " " + reader.unit;
    const std::string value = number_text(reader.value, reader.standard_uncertainty) + unit;
    if (!(reader.standard_uncertainty > 0.0)) return figure.name + " = " + value;
    const std::string doubt = number_text(reader.standard_uncertainty, reader.standard_uncertainty) + unit;
    return say_(OHMWRIGHT_TEXT("{figure} = {value}, standard uncertainty {doubt}"),
                {{"figure", figure.name}, {"value", value}, {"doubt", doubt}});
  }

  /// A residual is smaller than anything a thermometer says: three digits, with a prefix.
  std::string fine_text(AnyQuantity value) const {
    return display_text(
        value,
        {.significant_digits = 3, .spelling = Spelling::screen, .units = {}, .fixed_unit = say_.unit_for(value)});
  }

  /// A form that passes through every row it uses has no column.
  std::vector<const FittedRatings*> forms_with_residuals() const {
    std::vector<const FittedRatings*> forms;
    for (const FittedRatings& form : report_.fitting.forms)
      if (has_residuals(form)) forms.push_back(&form);
    return forms;
  }

  bool has_residuals(const FittedRatings& form) const {
    if (form.residuals.size() != report_.request.rows.size()) return false;
    for (std::size_t row = 0; row < form.residuals.size(); ++row)
      if (form.residuals[row].value_in_si() != 0.0 && !is_left_out(row)) return true;
    return false;
  }

  /// One table for all forms, so that they can be compared row by row.
  void residuals() {
    const std::vector<const FittedRatings*> forms = forms_with_residuals();
    if (forms.empty()) return;
    const Unit unit = say_.unit_for({forms.front()->residuals.front().dimension(), 1.0});
    page_ += '\n';
    line(OHMWRIGHT_TEXT("How far each row lies from the curve, in {unit} (* left out)"),
         {{"unit", unit.symbol(Spelling::screen)}});
    const int conditions = widest([&](std::size_t row) { return condition_text(row); });
    int figures = 2 + 2 + conditions;
    for (const FittedRatings* form : forms) figures += 2 + column_width(*form);
    const int longest = widest([&](std::size_t row) { return marked_name(row); });
    // Where the names do not fit in, the rows are numbered by their lines, or as they were given.
    numbered_ = figures + longest > width_;
    const int names = numbered_ ? widest([&](std::size_t row) { return marked_name(row); }) : longest;
    page_ += "  " + padded_right("", names) + "  " + padded_right("", conditions);
    for (const FittedRatings* form : forms) page_ += "  " + padded_left(form->form, column_width(*form));
    page_ += '\n';
    for (std::size_t row = 0; row < report_.request.rows.size(); ++row) {
      page_ += "  " + padded_right(marked_name(row), names) + "  " + padded_left(condition_text(row), conditions);
      for (const FittedRatings* form : forms)
        page_ += "  " + padded_left(signed_text(unit.from_si(form->residuals[row].value_in_si())), column_width(*form));
      page_ += '\n';
    }
  }

  static int column_width(const FittedRatings& form) {
    constexpr int of_a_number = 7;
    return std::max(of_a_number, columns_of(form.form));
  }

  template <typename TextOfRow>
  int widest(TextOfRow text) const {
    int columns = 0;
    for (std::size_t row = 0; row < report_.request.rows.size(); ++row)
      columns = std::max(columns, columns_of(text(row)));
    return columns;
  }

  std::string marked_name(std::size_t row) const {
    return (numbered_ ? short_name(row) : row_name(row)) + (is_left_out(row) ? " *" : "");
  }

  /// Of "line 6" the 6, so that the remarks above name the same row; of a row without a line its place.
  std::string short_name(std::size_t row) const {
    constexpr std::string_view line = "line ";
    const std::string name = row_name(row);
    const bool is_line =
        name.starts_with(line) && name.find_first_not_of("0123456789", line.size()) == std::string::npos;
    return is_line ? name.substr(line.size()) : std::to_string(row + 1);
  }

  std::string condition_text(std::size_t row) const {
    return with_plain_spaces(say_("{at}", {{"at", report_.request.rows[row].condition}}));
  }

  const FittingReport& report_;
  const Sentences& say_;
  int width_;
  bool numbered_ = false;  ///< rows by number, not by name
  std::string page_;
};

}  // namespace

std::string fitting_page(const FittingReport& report, const Sentences& say, const PageStyle& style) {
  return FittingWriter(report, say, style).write();
}

}  // namespace ohmwright
