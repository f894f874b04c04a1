#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>
#include <ohmwright/report/fitting_report.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

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
  json["ratings"] = to_json(form.ratings);  // null where the rows do not give them all
  return json;
}

Json remark_json(const RowRemark& remark, const FittingReport& report, const Sentences& say) {
  Json json = Json::object();
  if (remark.row != all_rows) {
    json["row"] = remark.row;
    json["name"] = remark.row < report.row_names.size() ? report.row_names[remark.row] : std::string();
  }
  json["left_out"] = remark.left_out;
  json["id"] = remark.text.id;
  json["text"] =
      with_plain_spaces(say.in_domain(report.descriptor.text_domain, remark.text.english, view(remark.arguments)));
  return json;
}

}  // namespace

std::string fitting_json(const FittingReport& report, const Sentences& say) {
  Json json{{"kind", report.descriptor.id},
            {"measurand", report.descriptor.measurands[report.request.measurand].id},
            {"condition", report.descriptor.conditions[report.request.condition].id},
            {"rows", report.request.rows.size()},
            {"remarks", Json::array()},
            {"forms", Json::array()}};
  for (const RowRemark& remark : report.fitting.remarks) json["remarks"].push_back(remark_json(remark, report, say));
  for (const FittedRatings& form : report.fitting.forms) json["forms"].push_back(form_json(form));
  return json.dump(2) + '\n';
}

std::string fitted_ratings_file(const Descriptor& descriptor, const FittedRatings& form, const RatingsFrame& frame) {
  Json json{{"kind", descriptor.id}, {"name", frame.name}, {"title", frame.title}, {"source", frame.source}};
  json["ratings"] = to_json(form.ratings);
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
