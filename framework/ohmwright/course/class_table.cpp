#include <algorithm>
#include <array>
#include <charconv>
#include <string_view>
#include <system_error>

#include <fmt/format.h>

#include <ohmwright/course/class_table.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright::course {

namespace {

std::string joined(const std::vector<std::string>& all, std::string_view between) {
  std::string text;
  for (const std::string& one : all) text += (text.empty() ? std::string() : std::string(between)) + one;
  return text;
}

/// A class's table is wide: the page gives it room, whoever scrolls it keeps the names in view, and remarks break
/// (fourth column).
constexpr std::string_view wide_table_style =
    "<style>body { max-width: 76rem; } .wide { max-width: 100%; } .wide td:first-child, .wide th:first-child { "
    "position: sticky; left: 0; "
    "background: #fff; } .wide th { white-space: normal; } "
    ".wide td:nth-child(4) { white-space: normal; min-width: 9rem; }</style>\n";

std::string hundredths(double share) { return fmt::format("{:.0f}", 100.0 * share); }

/// What stands out of a record by itself, or nothing.
std::string remark(const Graded& one, const Sentences& say) {
  if (!one.note.empty()) return say(OHMWRIGHT_TEXT("set by hand: {note}"), {{"note", one.note}});
  if (!one.refused.empty()) return one.was_stopped ? say(OHMWRIGHT_TEXT("UNSAFE")) + "; " + one.refused : one.refused;
  if (one.was_edited) return say(OHMWRIGHT_TEXT("EDITED"));
  if (one.marks.safety.value_or(1.0) <= 0.0) return say(OHMWRIGHT_TEXT("UNSAFE"));
  return {};
}

std::string remarks(const Graded& one, const Sentences& say) {
  std::string text = remark(one, say);
  if (!one.copied_by.empty())
    return text + (text.empty() ? "" : "; ") +
           say(OHMWRIGHT_TEXT("another record was made from this one: {record}"), {{"record", one.copied_by}});
  if (one.same_as.empty()) return text;
  return text + (text.empty() ? "" : "; ") + say(OHMWRIGHT_TEXT("SAME AS {record}"), {{"record", one.same_as}});
}

/// Who was stopped has one, though no answer followed.
std::string safety_of(const Graded& one) {
  const bool is_edited = one.was_edited && !one.has_marks();
  return one.marks.safety && !is_edited ? hundredths(*one.marks.safety) : "-";
}

std::vector<std::vector<std::string>> table_of_class(std::span<const Graded> graded, const Sentences& say) {
  std::vector<std::vector<std::string>> rows{
      {say(OHMWRIGHT_TEXT("record")), say(OHMWRIGHT_TEXT("students")), say(OHMWRIGHT_TEXT("total")),
       say(OHMWRIGHT_TEXT("remark")), say(OHMWRIGHT_TEXT("part")), say(OHMWRIGHT_TEXT("good parts")),
       say(OHMWRIGHT_TEXT("safety")), say(OHMWRIGHT_TEXT("confidence")), say(OHMWRIGHT_TEXT("inference")),
       say(OHMWRIGHT_TEXT("minutes taken")), say(OHMWRIGHT_TEXT("check words"))}};
  for (const Graded& one : graded) {
    const bool none = !one.has_marks();
    const auto cell = [&](double share) { return none ? std::string("-") : hundredths(share); };
    rows.push_back({one.file, joined(one.students, "; "), none ? "-" : fmt::format("{:.0f}", one.total),
                    remarks(one, say), cell(one.marks.part), cell(one.marks.good_parts), safety_of(one),
                    cell(one.marks.confidence), cell(one.marks.inference), fmt::format("{:.0f}", one.minutes),
                    joined(one.check_words, " ")});
  }
  return rows;
}

/// The marks alone, so that they stand below each other on a terminal.
std::vector<std::vector<std::string>> table_of_marks(std::span<const Graded> graded, const Sentences& say) {
  std::vector<std::vector<std::string>> rows{{say(OHMWRIGHT_TEXT("record")), say(OHMWRIGHT_TEXT("total")),
                                              say(OHMWRIGHT_TEXT("part")), say(OHMWRIGHT_TEXT("good parts")),
                                              say(OHMWRIGHT_TEXT("safety")), say(OHMWRIGHT_TEXT("confidence")),
                                              say(OHMWRIGHT_TEXT("inference"))}};
  for (const Graded& one : graded) {
    const bool none = !one.has_marks();
    const auto cell = [&](double share) { return none ? std::string("-") : hundredths(share); };
    rows.push_back({one.file, none ? "-" : fmt::format("{:.0f}", one.total), cell(one.marks.part),
                    cell(one.marks.good_parts), safety_of(one), cell(one.marks.confidence), cell(one.marks.inference)});
  }
  return rows;
}

/// What stands beside the marks, a line for each record that has anything.
std::vector<std::string> lines_beside_marks(std::span<const Graded> graded, const Sentences& say) {
  std::vector<std::string> lines;
  for (const Graded& one : graded) {
    std::string line = one.file + ":";
    const auto add = [&](const std::string& text) {
      if (!text.empty()) line += (line.back() == ':' ? " " : "; ") + text;
    };
    add(remarks(one, say));
    add(joined(one.students, "; "));
    add(say(OHMWRIGHT_TEXT("{minutes} min"), {{"minutes", fmt::format("{:.0f}", one.minutes)}}));
    if (!one.check_words.empty())
      add(say(OHMWRIGHT_TEXT("check words {words}"), {{"words", joined(one.check_words, " ")}}));
    lines.push_back(std::move(line));
  }
  return lines;
}

/// "exercise-003" and "exercise-004" follow one another.
bool follows(const std::string& name, const std::string& other) {
  const auto number = [](const std::string& text) {
    const std::size_t digits = text.find_last_not_of("0123456789") + 1;
    std::size_t value = 0;
    std::from_chars(text.data() + digits, text.data() + text.size(), value);
    return std::pair(text.substr(0, digits), value);
  };
  const auto [stem, value] = number(name);
  return number(other) == std::pair(stem, value + 1);
}

/// First and last of three and more that follow one another; of fewer each by itself.
std::vector<std::pair<std::string, std::string>> runs_of(std::span<const std::string> names) {
  constexpr std::size_t worth_a_run = 3;
  std::vector<std::pair<std::string, std::string>> runs;
  for (std::size_t at = 0; at < names.size();) {
    std::size_t end = at + 1;
    while (end < names.size() && follows(names[end - 1], names[end])) ++end;
    if (end - at < worth_a_run) end = at + 1;
    runs.emplace_back(names[at], names[end - 1]);
    at = end;
  }
  return runs;
}

/// Which exercises nobody handed in, or nothing.
std::string without_record(const MarkedClass& marked, const Sentences& say) {
  if (marked.without_record.empty()) return {};
  std::string names;
  for (const auto& [first, last] : runs_of(marked.without_record)) {
    names += names.empty() ? "" : ", ";
    names += first == last ? first : say(OHMWRIGHT_TEXT("{from} to {to}"), {{"from", first}, {"to", last}});
  }
  return say(OHMWRIGHT_TEXT("No record was handed in of {exercises}."), {{"exercises", names}});
}

bool is_number(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size();
}

/// No formula: what begins with = + - @, a tab or a return is text, also behind what a spreadsheet of another country
/// takes for the end of a cell. "-1.5" is a number and stays one.
std::string without_formula(const std::string& text) {
  constexpr std::string_view begins_formula = "=+-@\t\r";
  constexpr std::string_view ends_cell = ";\t\n";
  if (is_number(text)) return text;
  std::string safe;
  bool is_first = true;
  for (const char letter : text) {
    if (is_first && begins_formula.find(letter) != std::string_view::npos) safe += '\'';
    safe += letter;
    is_first = ends_cell.find(letter) != std::string_view::npos;
  }
  return safe;
}

/// RFC 4180.
std::string csv_cell(const std::string& cell) {
  const std::string text = without_formula(cell);
  if (text.find_first_of(",;\t\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char letter : text) quoted += letter == '"' ? std::string("\"\"") : std::string(1, letter);
  return quoted + "\"";
}

std::string html_bar(const std::string& label, double share, const std::string& figure) {
  return fmt::format(
      "<div class=\"bar\"><span><i style=\"width:{:.0f}%\"></i></span><b>{}</b><span "
      "style=\"background:none;flex:1\">{}</span></div>\n",
      100.0 * std::clamp(share, 0.0, 1.0), html_text(figure), html_text(label));
}

std::vector<const Graded*> marked(std::span<const Graded> graded) {
  std::vector<const Graded*> all;
  for (const Graded& one : graded)
    if (one.has_marks()) all.push_back(&one);
  return all;
}

/// How many students reached which tenth, and the class's mean of each mark.
std::string plots(std::span<const Graded> graded, const Sentences& say) {
  const std::vector<const Graded*> all = marked(graded);
  if (all.empty()) return {};
  const auto count = static_cast<double>(all.size());
  std::array<std::size_t, 10> tenths{};
  Marks sum;
  double safety_sum = 0.0;
  std::size_t with_safety = 0;
  for (const Graded* one : all) {
    ++tenths[std::min<std::size_t>(9, static_cast<std::size_t>(one->total / 10.0))];
    sum.part += one->marks.part / count;
    sum.good_parts += one->marks.good_parts / count;
    safety_sum += one->marks.safety.value_or(0.0);
    with_safety += one->marks.safety ? 1U : 0U;
    sum.confidence += one->marks.confidence / count;
    sum.inference += one->marks.inference / count;
  }
  std::string html = "<h2>" + html_text(say(OHMWRIGHT_TEXT("Totals of the class"))) + "</h2>\n";
  const auto most = static_cast<double>(*std::max_element(tenths.begin(), tenths.end()));
  for (std::size_t i = tenths.size(); i-- > 0;)
    html += html_bar(fmt::format("{}…{}", 10 * i, 10 * i + (i == 9 ? 10 : 9)), static_cast<double>(tenths[i]) / most,
                     std::to_string(tenths[i]));
  if (all.size() < graded.size())
    html += "<p>" +
            html_text(say(OHMWRIGHT_TEXT("Not among these, for they have no marks: {count}."),
                          {{"count", std::to_string(graded.size() - all.size())}})) +
            "</p>\n";
  html += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Mean of each mark"))) + "</h2>\n";
  std::vector<std::pair<std::string, double>> means{{say(OHMWRIGHT_TEXT("part")), sum.part},
                                                    {say(OHMWRIGHT_TEXT("good parts")), sum.good_parts},
                                                    {say(OHMWRIGHT_TEXT("confidence")), sum.confidence},
                                                    {say(OHMWRIGHT_TEXT("inference")), sum.inference}};
  if (with_safety > 0)
    means.insert(means.begin() + 2, {say(OHMWRIGHT_TEXT("safety")), safety_sum / static_cast<double>(with_safety)});
  for (const auto& [label, mean] : means) html += html_bar(label, mean, hundredths(mean));
  return html;
}

}  // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) row += (i == 0 ? "" : ",") + csv_cell(cells[i]);
  return row + "\r\n";
}

std::string class_page(const MarkedClass& marked, bool feedback, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.table(table_of_marks(marked.graded, say));
  page.section(say(OHMWRIGHT_TEXT("Who, how long, and what stands out")), lines_beside_marks(marked.graded, say));
  if (const std::string missing = without_record(marked, say); !missing.empty()) page.block(missing);
  for (const Graded& one : marked.graded) {
    if (!feedback) break;
    page.heading(one.file + (one.students.empty() ? std::string() : ": " + joined(one.students, "; ")));
    if (!one.refused.empty()) page.item(one.refused);
    for (const std::string& sentence : one.words) page.item(sentence);
    page.section(say(OHMWRIGHT_TEXT("What your readings said, one after another")), one.time_line);
  }
  return page.take();
}

std::string class_csv(std::span<const Graded> graded) {
  std::string csv = csv_row({"record",   "students",   "exercise",  "total",   "part",          "good_parts",
                             "safety",   "confidence", "inference", "minutes", "minutes_taken", "confidence_stated",
                             "followed", "decided_at", "edited",    "same_as", "copied_by",     "check_words",
                             "note",     "refused",    "unsafe"});
  for (const Graded& one : graded) {
    const bool none = !one.has_marks();
    const bool is_edited = none && one.was_edited;
    const auto share = [&](double value) { return none ? std::string() : fmt::format("{:.3f}", value); };
    csv += csv_row({one.file,
                    joined(one.students, "; "),
                    one.exercise,
                    none ? "" : fmt::format("{:.1f}", one.total),
                    share(one.marks.part),
                    share(one.marks.good_parts),
                    one.marks.safety && !is_edited ? fmt::format("{:.3f}", *one.marks.safety) : std::string(),
                    share(one.marks.confidence),
                    share(one.marks.inference),
                    share(one.marks.minutes),
                    fmt::format("{:g}", one.minutes),
                    share(one.confidence),
                    share(one.followed),
                    one.decided_at ? std::to_string(*one.decided_at) : std::string(),
                    one.was_edited ? "yes" : "no",
                    one.same_as,
                    one.copied_by,
                    joined(one.check_words, " "),
                    one.note,
                    one.refused,
                    one.was_stopped ? "yes" : "no"});
  }
  return csv;
}

std::string class_html(const MarkedClass& marked, const MarkWeights& weights, const Sentences& say,
                       std::string_view made_with) {
  const std::string title = say(OHMWRIGHT_TEXT("Marks of the class"));
  std::string body = std::string(wide_table_style) + "<h1>" + html_text(title) + "</h1>\n" + plots(marked.graded, say) +
                     html_table(table_of_class(marked.graded, say));
  if (const std::string missing = without_record(marked, say); !missing.empty())
    body += "<p>" + html_text(missing) + "</p>\n";
  body += "<p>" +
          html_text(
              say(OHMWRIGHT_TEXT("Weights: part {part}, good parts {good}, safety {safety}, confidence {confidence}, "
                                 "inference {inference}, minutes {minutes}. The mark for confidence is Brier's "
                                 "quadratic score, which nobody raises by stating another confidence than their own."),
                  {{"part", fmt::format("{:g}", weights.part)},
                   {"good", fmt::format("{:g}", weights.good_parts)},
                   {"safety", fmt::format("{:g}", weights.safety)},
                   {"confidence", fmt::format("{:g}", weights.confidence)},
                   {"inference", fmt::format("{:g}", weights.inference)},
                   {"minutes", fmt::format("{:g}", weights.minutes)}})) +
          "</p>\n";
  for (const Graded& one : marked.graded)
    body +=
        html_section(one.file + (one.students.empty() ? std::string() : ": " + joined(one.students, "; ")), one.words) +
        html_folded(say(OHMWRIGHT_TEXT("What your readings said, one after another")), one.time_line);
  return html_page(title, body, made_with);
}

}  // namespace ohmwright::course
