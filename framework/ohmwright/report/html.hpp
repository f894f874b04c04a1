#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// `text` as HTML shows it: `& < > " '` escaped, control characters dropped.
std::string html_text(std::string_view text);

/// A whole page that loads nothing from anywhere and runs nothing: `body` between head and foot. `title` and `foot`,
/// what made the page and when, are escaped; `body` is not. No foot for an empty one.
std::string html_page(std::string_view title, std::string_view body, std::string_view foot = {});

/// A heading and a list of lines, escaped; nothing for no line.
std::string html_section(std::string_view title, const std::vector<std::string>& lines);

/// A table, its first row the names of its columns, escaped; it scrolls by itself where the page is narrow. Nothing
/// for no further row.
std::string html_table(const std::vector<std::vector<std::string>>& rows);
/// The same for rows that are read one by one: on a telephone each stands as a block, the names of its columns before
/// what they hold.
std::string html_stacking_table(const std::vector<std::vector<std::string>>& rows);

/// What can hurt, in few words, each ending in a full stop: above what is to be done. Nothing for no caution.
std::string html_cautions(std::string_view title, const std::vector<std::string>& brief);
/// A section folded under its title, opened by a touch and in print. Nothing for no lines.
std::string html_folded(std::string_view title, const std::vector<std::string>& lines);

/// A line to be filled in by hand on paper: date, job, who.
std::string html_line_to_fill(const std::vector<std::string>& labels);

/// What a page that is narrower than a picture does with it.
enum class PictureFit {
  scrolls,  ///< keeps its size on a phone, to be moved about: a drawing whose words would become too small
  shrinks,  ///< a chart, whose words are large enough for it
};

/// A picture inside the page. As an image nothing in it can run. `alternative` says what it shows.
std::string html_picture(std::string_view svg, std::string_view alternative, PictureFit fit = PictureFit::scrolls);

/// The same in two widths: `narrow` where the screen is, `wide` elsewhere and on paper.
std::string html_picture(std::string_view wide, std::string_view narrow, std::string_view alternative);

/// A small picture with a line of words above it.
struct CaptionedPicture {
  std::string caption;
  std::string svg;
  std::string alternative;
};

/// Small pictures side by side, as many in a row as the page has room for. Nothing for none.
std::string html_small_pictures(const std::vector<CaptionedPicture>& pictures);

}  // namespace ohmwright
