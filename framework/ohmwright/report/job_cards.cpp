#include <algorithm>
#include <set>

#include <ohmwright/locate/work.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/locate_steps.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

/// The few words of the framework's cautions of a step that no step before it on the card had; those of kinds stand on
/// the step's own page.
std::string card_cautions(const LocateReport& report, const locate::Step& step, std::set<std::string>& shown,
                          const Sentences& say) {
  if (step.form != locate::Step::Form::measure) return {};
  const Appliance& appliance = report.reasoner.prober().appliance();
  std::string all;
  for (const std::string& id : locate::cautions_of(appliance, report.work, step.measurement))
    if (const Caution* caution = caution_named(id); caution != nullptr && shown.insert(id).second)
      all += say(caution->brief) + ". ";
  return all;
}

/// Where the sealed refrigerant system speaks: no step, and what to beware of on the way out.
void write_stop(const LocateReport& report, const Sentences& say, PageLayout& page) {
  const LocateContent content = locate_content(report, say);
  page.block(content.headline);
  for (const std::string& line : content.explanation) page.block(line);
  for (const std::string& caution : content.brief_cautions) page.item(caution);
}

}  // namespace

std::string job_card(const LocateReport& report, std::span<const std::string> first, std::size_t steps,
                     const Sentences& say, const PageStyle& style) {
  PageLayout page({std::min(style.width, phone_columns), style.colour});
  const Appliance& appliance = report.reasoner.prober().appliance();
  const std::size_t shown = std::min(steps, report.steps.size());
  std::set<std::string> told;
  const bool stops = report.standing.form == locate::Standing::Form::sealed_system;
  if (stops) write_stop(report, say, page);
  if (stops && !first.empty()) page.blank_line();
  if (!first.empty()) page.block(say(OHMWRIGHT_TEXT("STOP: not plugged in before")));
  for (const std::string& line : first) page.item(line);
  if (stops) return page.take();
  if (report.standing.is_named()) {
    page.block(locate_content(report, say).headline);
    page.blank_line();
  }
  if (!first.empty() && appliance.refrigerant != "none") page.blank_line();
  if (appliance.refrigerant != "none") page.block(say(OHMWRIGHT_TEXT("Leave the ice as it is until you have looked.")));
  for (std::size_t i = 0; i < shown; ++i) {
    const locate::Step& step = report.steps[i];
    page.blank_line();
    page.numbered(i + 1, step_title(appliance, step, say));
    if (const std::string hurts = card_cautions(report, step, told, say); !hurts.empty())
      page.block("! " + hurts, "    ");
    if (step.form == locate::Step::Form::measure)
      for (const std::string& line : work_lines(appliance, report.work, step.measurement, say))
        page.block(line, "    ");
    if (step.form == locate::Step::Form::measure)
      page.block(say(OHMWRIGHT_TEXT("type: {point}="),
                     {{"point", appliance.test_points[step.measurement.test_point].id +
                                    (step.measurement.set_up ? "@" + appliance.set_ups[*step.measurement.set_up].id
                                                             : std::string())}}),
                 "    ");
    if (step.form == locate::Step::Form::measure)
      if (const std::optional<std::string> way_out = way_out_line(appliance, step.measurement, say))
        page.block(*way_out, "    ");
  }
  if (shown == 0) page.block(say(OHMWRIGHT_TEXT("No step is left that tells more.")));
  return page.take();
}

}  // namespace ohmwright
