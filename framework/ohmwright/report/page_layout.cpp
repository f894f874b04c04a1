#include <algorithm>
#include <cmath>

#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/text_table.hpp>

namespace ohmwright {

namespace {

constexpr int narrowest_page = 20;
constexpr int widest_page = 100;  // longer lines are hard to read, however wide the terminal is
constexpr int longest_bar = 20;

}  // namespace

PageLayout::PageLayout(const PageStyle& style)
    : colour_(style.colour), width_(std::clamp(style.width, narrowest_page, widest_page)) {}

void PageLayout::heading(std::string_view text) {
  page_ += '\n';
  page_ += colour_ ? "\033[1m" + std::string(text) + "\033[0m\n" : std::string(text) + "\n";
}

void PageLayout::numbered(std::size_t number, std::string_view text) {
  std::string first = std::to_string(number);
  first.insert(0, first.size() < 2 ? 2 - first.size() : 0, ' ');
  page_ += paragraph(text, width_, first + "  ", "    ");
}

void PageLayout::section(std::string_view title, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  heading(title);
  for (const std::string& line : lines) item(line);
}

void PageLayout::coloured(std::string_view text, std::string_view colour) {
  const std::string laid_out = paragraph(text, width_);
  page_ += colour_ ? std::string(colour) + laid_out + "\033[0m" : laid_out;
}

void PageLayout::table(const std::vector<std::vector<std::string>>& rows) {
  if (rows.size() > 1) page_ += text_table(rows, width_);
}

void PageLayout::drawing(const std::vector<std::string>& lines) {
  for (const std::string& line : lines) page_ += line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
}

void PageLayout::bar(std::string_view label, double share) {
  const int bar_width = std::min(longest_bar, width_ / 4);
  const int cells = std::max(1, static_cast<int>(std::lround(share * bar_width)));
  std::string drawn;
  for (int i = 0; i < bar_width; ++i) drawn += i < cells ? "█" : "·";
  const std::string percent = std::to_string(std::lround(share * 100.0)) + " %";
  const std::string figures =
      "  " + drawn + " " + std::string(5 - std::min<std::size_t>(5, percent.size()), ' ') + percent + "  ";
  page_ += paragraph(label, width_, figures, std::string(static_cast<std::size_t>(columns_of(figures)), ' '));
}

std::string_view colour_of(Outcome outcome) {
  if (outcome == Outcome::within_limits) return colour_of_right;
  return outcome == Outcome::out_of_limits ? colour_of_wrong : colour_of_doubt;
}

}  // namespace ohmwright
