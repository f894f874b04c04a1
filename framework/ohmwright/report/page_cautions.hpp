#pragma once

#include <string>
#include <vector>

#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// Above everything on a page: what can hurt, each caution in few words, or in full where that was asked for. Nothing
/// where there is none.
void write_cautions(const std::vector<std::string>& brief, const std::vector<std::string>& full, bool in_full,
                    const Sentences& say, PageLayout& page);

}  // namespace ohmwright
