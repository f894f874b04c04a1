#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/verdict_content.hpp>

namespace ohmwright {

namespace {

constexpr int widest_page = 100;  // longer lines are hard to read, however wide the terminal is

std::string_view colour_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::within_limits:
      return "\033[1;32m";
    case Outcome::out_of_limits:
      return "\033[1;31m";
    default:
      return "\033[1;33m";
  }
}

/// Lays one verdict out as text.
class PageWriter {
 public:
  PageWriter(const VerdictReport& report, const Sentences& sentences, const PageStyle& style)
      : report_(report),
        say_(sentences),
        content_(verdict_content(report, sentences)),
        style_(style),
        width_(std::clamp(style.width, 20, widest_page)) {}

  std::string write() {
    cautions();
    headline();
    section(OHMWRIGHT_TEXT("Why"), content_.reasons);
    section(OHMWRIGHT_TEXT("Readings"), content_.readings);
    doubt();
    section(OHMWRIGHT_TEXT("What to do next"), content_.advice);
    silent_rules();
    return std::move(page_);
  }

 private:
  void heading(std::string_view english) {
    page_ += '\n';
    const std::string text = say_(english);
    page_ += style_.colour ? "\033[1m" + text + "\033[0m\n" : text + "\n";
  }
  void item(std::string_view text) { page_ += paragraph(text, width_, "  - ", "    "); }
  void section(std::string_view title, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    heading(title);
    for (const std::string& line : lines) item(line);
  }

  /// Above everything: what can hurt, in few words, or in full where that was asked for.
  void cautions() {
    if (content_.cautions.empty()) return;
    const std::string title = say_(OHMWRIGHT_TEXT("Before you touch it"));
    page_ += style_.colour ? "\033[1;33m" + title + "\033[0m\n" : title + "\n";
    if (report_.cautions_in_full) {
      for (const std::string& caution : content_.cautions) item(caution);
    } else {
      std::string brief;
      for (const std::string& caution : content_.brief_cautions) brief += caution + ". ";
      page_ += paragraph(brief + say_(OHMWRIGHT_TEXT("(--cautions: in full)")), width_, "  ", "  ");
    }
    page_ += '\n';
  }

  void headline() {
    const std::string block = paragraph(content_.headline, width_);
    page_ += style_.colour ? std::string(colour_of(report_.verdict.outcome)) + block + "\033[0m" : block;
    for (const std::string& chance : content_.chances) page_ += paragraph(chance, width_, "  ", "  ");
  }

  void doubt() {
    if (content_.doubt.empty()) return;
    heading(OHMWRIGHT_TEXT("Where the doubt comes from"));
    for (const DoubtShare& share : content_.doubt) page_ += bar_line(share.label, share.share);
  }

  std::string bar_line(const std::string& label, double share) const {
    constexpr int longest_bar = 20;
    const int bar_width = std::min(longest_bar, width_ / 4);
    const int cells = std::max(1, static_cast<int>(std::lround(share * bar_width)));
    std::string bar;
    for (int i = 0; i < bar_width; ++i) bar += i < cells ? "█" : "·";
    const std::string percent = std::to_string(std::lround(share * 100.0)) + " %";
    const std::string figures =
        "  " + bar + " " + std::string(5 - std::min<std::size_t>(5, percent.size()), ' ') + percent + "  ";
    return paragraph(label, width_, figures, std::string(static_cast<std::size_t>(columns_of(figures)), ' '));
  }

  /// The rules that had nothing to go on: their number is enough, unless asked for.
  void silent_rules() {
    if (report_.every_rule) return section(OHMWRIGHT_TEXT("Not checked"), content_.silent);
    if (content_.silent.empty()) return;
    page_ += '\n';
    page_ += paragraph(say_(OHMWRIGHT_TEXT("Other checks had nothing to go on: {count} (--every-rule says why)."),
                            {{"count", std::to_string(content_.silent.size())}}),
                       width_);
  }

  const VerdictReport& report_;
  const Sentences& say_;
  VerdictContent content_;
  const PageStyle& style_;
  int width_;
  std::string page_;
};

}  // namespace

std::string verdict_page(const VerdictReport& report, const Sentences& sentences, const PageStyle& style) {
  return PageWriter(report, sentences, style).write();
}

}  // namespace ohmwright
