#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/log_picture.hpp>
#include <ohmwright/report/log_words.hpp>

namespace ohmwright {

namespace {

constexpr PictureSize on_a_desk{};
constexpr PictureSize on_a_phone{380, 190};

/// A picture in the size of the screen; nothing where it cannot be drawn.
template <class Script>
std::string picture(Script script, const std::string& alternative) {
  const std::optional<std::string> wide = drawn_picture(script(on_a_desk));
  const std::optional<std::string> narrow = drawn_picture(script(on_a_phone));
  return wide && narrow ? html_picture(*wide, *narrow, alternative) : std::string();
}

std::string whole_log(const LogReport& report, const Sentences& say) {
  const std::string alternative = say(OHMWRIGHT_TEXT("The whole log over {span}, {count} defrosts shaded"),
                                      {{"span", duration_text(report.analysis.coverage.span_second)},
                                       {"count", std::to_string(report.analysis.defrost_count)}});
  const std::string drawn =
      picture([&](PictureSize size) { return log_picture_script(report, say, size); }, alternative);
  const std::string heading = "<h2>" + html_text(say(OHMWRIGHT_TEXT("The whole log"))) + "</h2>\n";
  if (!drawn.empty()) return heading + drawn;
  if (report.analysis.outline.columns().empty()) return {};
  return heading + "<p>" +
         html_text(say(OHMWRIGHT_TEXT("No picture: gnuplot is not installed. The table says the same."))) + "</p>\n";
}

/// The phases and their colours: a band that is too narrow for its name has none in the picture.
std::string phase_legend(const Sentences& say) {
  std::string html = "<p>";
  for (const PhaseOfDefrost& phase : phases_of_defrosts())
    html += std::string(phase.is_first ? "" : ", ") + "<span style=\"background:" + std::string(phase.colour) +
            ";padding:0 0.6em;border:1px solid #999\"></span> " + html_text(say(phase.english));
  return html + "</p>\n";
}

std::string each_defrost(const LogReport& report, const LogContent& content, const Sentences& say) {
  std::string html;
  if (!report.analysis.traces.empty()) html += phase_legend(say);
  for (const cycles::DefrostTrace& trace : report.analysis.traces) {
    const std::string number = std::to_string(trace.defrost + 1);
    const std::string title = say(OHMWRIGHT_TEXT("Defrost {number}"), {{"number", number}});
    const std::string drawn =
        picture([&](PictureSize size) { return defrost_picture_script(report, trace, say, size); }, title);
    if (drawn.empty()) continue;
    const std::size_t listed = trace.defrost - (report.analysis.defrosts.size() - content.defrosts.size());
    html += "<section>\n<h3>" + html_text(title) + "</h3>\n";
    if (listed < content.defrosts.size()) html += "<p>" + html_text(content.defrosts[listed]) + "</p>\n";
    html += drawn + "</section>\n";
  }
  return html;
}

}  // namespace

std::string log_html(const LogReport& report, const Sentences& say) {
  const LogContent content = log_content(report, say);
  const bool asks = cycles::asks_for_a_test(report.verdicts) || !content.questions.empty();
  std::string body = html_cautions(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
  const auto& heat = report.analysis.lasting_heat;
  const char* const colour = heat && heat->is_sure() ? "out-of-limits" : asks ? "undecided" : "within-limits";
  body += std::string("<div class=\"") + colour + "\">\n<h1>" + html_text(content.headline) + "</h1>\n</div>\n";
  if (!content.of_what.empty()) body += "<p>" + html_text(content.of_what) + "</p>\n";
  body += html_section(say(OHMWRIGHT_TEXT("Settle this first")), content.questions);
  body += html_section(say(OHMWRIGHT_TEXT("What it says")), content.verdicts);
  body += html_section(say(OHMWRIGHT_TEXT("What to do next")), content.next);
  body += whole_log(report, say);
  if (content.table.size() > 1)
    body += "<h2>" + html_text(content.defrosts_title) + "</h2>\n" + html_table(content.table);
  body += each_defrost(report, content, say);
  body += html_section(say(OHMWRIGHT_TEXT("Cooling")), content.cooling);
  body += html_section(say(OHMWRIGHT_TEXT("What it cannot show")), content.not_shown);
  body += html_section(say(OHMWRIGHT_TEXT("Rows that were wrong")), content.troubles);
  body += html_folded(say(OHMWRIGHT_TEXT("How it was read")), content.form);
  body += html_folded(say(OHMWRIGHT_TEXT("Thresholds, from the log itself")), content.thresholds);
  body += html_line_to_fill({say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Job")), say(OHMWRIGHT_TEXT("Read by"))});
  return html_page(content.of_what.empty() ? content.headline : content.headline + ", " + content.of_what, body);
}

}  // namespace ohmwright
