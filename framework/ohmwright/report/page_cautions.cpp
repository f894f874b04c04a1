#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_cautions.hpp>

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

}  // namespace ohmwright
