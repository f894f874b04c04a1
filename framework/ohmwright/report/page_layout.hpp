#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

// Escape sequences of headlines, where colours are wanted: never the only carrier of a meaning.
inline constexpr std::string_view colour_of_right = "\033[1;32m";
inline constexpr std::string_view colour_of_wrong = "\033[1;31m";
inline constexpr std::string_view colour_of_doubt = "\033[1;33m";

/// The colour of an outcome's headline.
std::string_view colour_of(Outcome outcome);

/// Lays a page of text out: headings, items, bars, at the width that was asked for.
class PageLayout {
 public:
  explicit PageLayout(const PageStyle& style);

  /// A blank line and a heading.
  void heading(std::string_view text);
  void item(std::string_view text) { page_ += paragraph(text, width_, "  - ", "    "); }
  /// A step of a numbered list.
  void numbered(std::size_t number, std::string_view text);
  /// A heading and its items; nothing for no item.
  void section(std::string_view title, const std::vector<std::string>& lines);
  void block(std::string_view text, std::string_view indent = "") { page_ += paragraph(text, width_, indent, indent); }
  /// A block in a colour (an escape sequence), where colours are wanted.
  void coloured(std::string_view text, std::string_view colour);
  /// A bar for a share [0…1], its percentage and a label.
  void bar(std::string_view label, double share);
  /// A table, its first row the names of its columns (`text_table`); nothing for no further row.
  void table(const std::vector<std::vector<std::string>>& rows);
  /// Lines that are drawn already, no wider than `width`.
  void drawing(const std::vector<std::string>& lines);
  int width() const { return width_; }
  void blank_line() { page_ += '\n'; }

  std::string take() { return std::move(page_); }

 private:
  bool colour_;
  int width_;
  std::string page_;
};

}  // namespace ohmwright
