#include <array>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_trouble_words.hpp>
#include <ohmwright/report/log_words.hpp>

namespace ohmwright {

namespace {

using cycles::LogTrouble;

struct TroubleWords {
  LogTrouble sort;
  std::string_view english;
};

// A line without an end is used like the others: it is said with the form.
constexpr std::array trouble_words{
    TroubleWords{LogTrouble::unreadable_time, OHMWRIGHT_TEXT("Time that cannot be read, the row left out")},
    TroubleWords{LogTrouble::unreadable_value, OHMWRIGHT_TEXT("Value that cannot be read, left out")},
    TroubleWords{LogTrouble::missing_value, OHMWRIGHT_TEXT("Value missing")},
    TroubleWords{LogTrouble::impossible_value, OHMWRIGHT_TEXT("Value that cannot be, left out")},
    TroubleWords{LogTrouble::unit_slip, OHMWRIGHT_TEXT("Value in another unit than its neighbours")},
    TroubleWords{LogTrouble::repeated_time, OHMWRIGHT_TEXT("Time of the row before, again")},
    TroubleWords{LogTrouble::out_of_order, OHMWRIGHT_TEXT("Time before the row before, the row left out")},
    TroubleWords{LogTrouble::clock_set_back, OHMWRIGHT_TEXT("Clock set back by an hour, counted on")},
    TroubleWords{LogTrouble::clock_set_forward, OHMWRIGHT_TEXT("Clock set forward by an hour, counted on")},
    TroubleWords{LogTrouble::clock_set_ahead, OHMWRIGHT_TEXT("Clock set to a date far ahead, counted on")},
    TroubleWords{LogTrouble::clock_began_anew, OHMWRIGHT_TEXT("Clock begun anew at an earlier date, counted on")},
    TroubleWords{LogTrouble::missing_cells, OHMWRIGHT_TEXT("Too few cells")},
    TroubleWords{LogTrouble::extra_cells, OHMWRIGHT_TEXT("Too many cells")},
    TroubleWords{LogTrouble::open_quote, OHMWRIGHT_TEXT("Quote that is not closed")},
    TroubleWords{LogTrouble::repeated_header, OHMWRIGHT_TEXT("Header again, the line left out")},
    TroubleWords{LogTrouble::line_too_long, OHMWRIGHT_TEXT("Line too long, left out")},
};

template <class Item, class LineOf>
std::string lines_text(const std::vector<Item>& items, LineOf line_of) {
  std::string lines;
  for (const Item& item : items) lines += (lines.empty() ? "" : ", ") + std::to_string(line_of(item));
  return lines;
}

std::string gap_line(const LogReport& report, const Sentences& say) {
  const cycles::LogCoverage& coverage = report.analysis.coverage;
  const cycles::LogGap& longest = coverage.longest_gap;
  const std::string when = log_time_text(longest.start_second, report.reader.start_second());
  if (coverage.gaps == 1)
    return say(
        OHMWRIGHT_TEXT("Rows missing: {second} after line {line} ({when})"),
        {{"second", duration_text(longest.second)}, {"line", std::to_string(longest.after_line)}, {"when", when}});
  return say(OHMWRIGHT_TEXT("Rows missing: {count} gaps, {second} in all, first after lines {lines}; the longest, "
                            "{longest}, after line {line} ({when})"),
             {{"count", std::to_string(coverage.gaps)},
              {"second", duration_text(coverage.gap_second)},
              {"lines", lines_text(coverage.first_gaps, [](const cycles::LogGap& gap) { return gap.after_line; })},
              {"longest", duration_text(longest.second)},
              {"line", std::to_string(longest.after_line)},
              {"when", when}});
}

}  // namespace

std::vector<std::string> log_trouble_lines(const LogReport& report, const Sentences& say) {
  std::vector<std::string> texts;
  if (report.analysis.coverage.gaps > 0) texts.push_back(gap_line(report, say));
  for (const TroubleWords& words : trouble_words) {
    const cycles::TroubleCount& trouble = report.reader.troubles().of(words.sort);
    if (trouble.count == 0) continue;
    texts.push_back(say(OHMWRIGHT_TEXT("{sort}: {count}, first in lines {lines}"),
                        {{"sort", say(words.english)},
                         {"count", std::to_string(trouble.count)},
                         {"lines", lines_text(trouble.first_lines, [](std::uint64_t line) { return line; })}}));
  }
  return texts;
}

}  // namespace ohmwright
