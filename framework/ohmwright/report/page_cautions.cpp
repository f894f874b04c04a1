#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

void write_cautions(const std::vector<std::string>& brief, const std::vector<std::string>& full, bool in_full,
                    const Sentences& say, PageLayout& page) {
  if (full.empty()) return;
  page.coloured(say(OHMWRIGHT_TEXT("Before you touch it")), colour_of_doubt);
  if (in_full) {
    for (const std::string& caution : full) page.item(caution);
  } else {
    std::string all;
    for (const std::string& caution : brief) all += caution + ". ";
    page.block(all + say(OHMWRIGHT_TEXT("(--cautions: in full)")), "  ");
  }
  page.blank_line();
}

std::string caution_line(const std::vector<std::string>& brief, const Sentences& say) {
  std::string all;
  for (const std::string& words : brief) all += (all.empty() ? "" : " ") + words + ".";
  return say(OHMWRIGHT_TEXT("Before you touch it: {cautions}"), {{"cautions", all}});
}

std::string caution_line_of_step(std::string_view step, const Sentences& say) {
  std::vector<std::string> brief;
  for (const std::string_view id : cautions_of_step(step)) brief.push_back(say(caution_named(id)->brief));
  return caution_line(brief, say);
}

}  // namespace ohmwright
