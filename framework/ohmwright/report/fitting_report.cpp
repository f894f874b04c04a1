#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/fitting_report.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

/// A figure to the place that its uncertainty reaches: two digits of it (GUM 7.2.6).
std::string figure_text(const FittedFigure& figure) {
  const std::string unit = figure.unit.empty() ? "" : " " + figure.unit;
  if (!(figure.standard_uncertainty > 0.0)) return fmt::format("{:.8g}{}", figure.value, unit);
  const double digits = std::floor(std::log10(std::abs(figure.value) / figure.standard_uncertainty));
  const int significant = std::clamp(static_cast<int>(digits) + 3, 3, 15);
  return fmt::format("{:.{}g}{} (u = {:.2g}{})", figure.value, significant, unit, figure.standard_uncertainty, unit);
}

/// Writes the page of one fitting.
class FittingWriter {
 public:
  FittingWriter(const FittingReport& report, const Sentences& say, const PageStyle& style)
      : report_(report), say_(say), width_(std::clamp(style.width, 30, 100)) {}

  std::string write() {
    const std::string kind = say_.in_domain(report_.descriptor.text_domain, report_.descriptor.title);
    line(OHMWRIGHT_TEXT("{kind}: ratings from {count} rows"),
         {{"kind", kind}, {"count", std::to_string(report_.request.rows.size())}});
    remarks();
    for (const FittedRatings& form : report_.fitting.forms) write_form(form);
    if (report_.fitting.forms.empty()) {
      page_ += '\n';
      line(OHMWRIGHT_TEXT("No ratings could be made from these rows."), {});
    }
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
    page_ += '\n' + say_(OHMWRIGHT_TEXT("Rows that break the pattern")) + '\n';
    for (const RowRemark& remark : report_.fitting.remarks) {
      const FindingArgument row{"row", row_name(remark.row)};
      const FindingArgument why{
          "why", say_.in_domain(report_.descriptor.text_domain, remark.text.english, view(remark.arguments))};
      const std::string text = remark.left_out ? say_(OHMWRIGHT_TEXT("{row}, left out: {why}"), {row, why})
                                               : say_(OHMWRIGHT_TEXT("{row}, kept: {why}"), {row, why});
      page_ += paragraph(text, width_, "  - ", "    ");
    }
  }

  void write_form(const FittedRatings& form) {
    page_ += '\n';
    line(OHMWRIGHT_TEXT("{form}: holds from {from} to {to}; its rows lie {scatter} from it (standard deviation)"),
         {{"form", form.form}, {"from", form.from}, {"to", form.to}, {"scatter", fine_text(form.standard_deviation)}});
    for (const FittedFigure& figure : form.figures)
      page_ += paragraph(figure.name + " = " + figure_text(figure), width_, "    ", "      ");
    residuals(form);
  }

  /// A residual is smaller than anything a thermometer says: three digits, with a prefix.
  static std::string fine_text(AnyQuantity value) {
    return display_text(value, {.significant_digits = 3, .spelling = Spelling::screen, .units = {}, .fixed_unit = {}});
  }

  void residuals(const FittedRatings& form) {
    const bool any = std::any_of(form.residuals.begin(), form.residuals.end(),
                                 [](AnyQuantity residual) { return residual.value_in_si() != 0.0; });
    if (!any) return;
    std::string list;
    for (std::size_t row = 0; row < form.residuals.size(); ++row)
      list += (list.empty() ? "" : ", ") + row_name(row) + " " + fine_text(form.residuals[row]);
    line(OHMWRIGHT_TEXT("off by row: {list}"), {{"list", list}}, "    ");
  }

  const FittingReport& report_;
  const Sentences& say_;
  int width_;
  std::string page_;
};

Json quantity_json(AnyQuantity value) {
  return {{"value", value.value_in_si()}, {"unit", si_unit_of(value.dimension())}};
}

Json form_json(const FittedRatings& form) {
  Json json{{"form", form.form},
            {"from", quantity_json(form.from)},
            {"to", quantity_json(form.to)},
            {"standard_deviation", quantity_json(form.standard_deviation)},
            {"figures", Json::array()},
            {"residuals", Json::array()}};
  for (const FittedFigure& figure : form.figures)
    json["figures"].push_back({{"name", figure.name},
                               {"value", figure.value},
                               {"standard_uncertainty", figure.standard_uncertainty},
                               {"unit", figure.unit}});
  for (const AnyQuantity residual : form.residuals) json["residuals"].push_back(residual.value_in_si());
  json["ratings"] = to_json(form.ratings);
  return json;
}

}  // namespace

std::string fitting_page(const FittingReport& report, const Sentences& say, const PageStyle& style) {
  return FittingWriter(report, say, style).write();
}

std::string fitting_json(const FittingReport& report, const Sentences& say) {
  Json json{{"kind", report.descriptor.id},
            {"measurand", report.descriptor.measurands[report.request.measurand].id},
            {"condition", report.descriptor.conditions[report.request.condition].id},
            {"rows", report.request.rows.size()},
            {"remarks", Json::array()},
            {"forms", Json::array()}};
  for (const RowRemark& remark : report.fitting.remarks)
    json["remarks"].push_back(
        {{"row", remark.row},
         {"name", remark.row < report.row_names.size() ? report.row_names[remark.row] : std::string()},
         {"left_out", remark.left_out},
         {"id", remark.text.id},
         {"text", with_plain_spaces(
                      say.in_domain(report.descriptor.text_domain, remark.text.english, view(remark.arguments)))}});
  for (const FittedRatings& form : report.fitting.forms) json["forms"].push_back(form_json(form));
  return json.dump(2) + '\n';
}

std::string fitted_ratings_file(const Descriptor& descriptor, const FittedRatings& form, const RatingsFrame& frame) {
  Json json{{"kind", descriptor.id}, {"name", frame.name}, {"title", frame.title}, {"source", frame.source}};
  json["ratings"] = to_json(form.ratings);
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
