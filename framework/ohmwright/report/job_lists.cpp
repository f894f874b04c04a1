#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t longest_title = 60;

/// A title is somebody's own text: no more of it than a line, and nothing that moves a cursor.
std::string listed_title(const std::string& title) {
  std::string plain = printable(title);
  if (plain.size() <= longest_title) return plain;
  std::size_t end = longest_title;
  while (end > 0 && (static_cast<unsigned char>(plain[end]) & 0xC0U) == 0x80U) --end;  // not within a letter
  return plain.substr(0, end) + "…";
}

/// A book of a later version may hold states that have no words here.
std::string listed_state(const std::string& state, const Sentences& say) {
  const std::optional<job::JobState> known = job::job_state_named(state);
  return known ? job_state_text(*known, say) : printable(state);
}

}  // namespace

std::string job_list_page(std::span<const job::JobLine> jobs, std::size_t of,
                          const std::function<std::string(const std::string&)>& local_time, const Sentences& say,
                          const PageStyle& style) {
  PageLayout page(style);
  if (jobs.empty()) {
    page.block(say(OHMWRIGHT_TEXT("No such job in the book. A call begins with: ohmwright job open TITLE")));
    return page.take();
  }
  for (const job::JobLine& line : jobs)
    page.item(say(OHMWRIGHT_TEXT("{number}: {title}, {state}, {changed}"), {{"number", std::to_string(line.number)},
                                                                            {"title", listed_title(line.title)},
                                                                            {"state", listed_state(line.state, say)},
                                                                            {"changed", local_time(line.changed)}}));
  if (of > jobs.size())
    page.block(say(OHMWRIGHT_TEXT("{shown} of {all}; --most N shows more."),
                   {{"shown", std::to_string(jobs.size())}, {"all", std::to_string(of)}}));
  return page.take();
}

}  // namespace ohmwright
