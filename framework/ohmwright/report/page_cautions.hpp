#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// Above everything on a page: what can hurt, each caution in few words, or in full where that was asked for. Nothing
/// where there is none.
void write_cautions(const std::vector<std::string>& brief, const std::vector<std::string>& full, bool in_full,
                    const Sentences& say, PageLayout& page);

/// Identifiers of the cautions of a step of work on a part of that kind, each once: the step's own (`cautions_of_step`)
/// and those of all the kind's procedures.
std::vector<std::string_view> caution_ids_of_work(std::string_view step, const Descriptor& descriptor);

/// The few words of cautions as one line: "Before you touch it: Unplug it. Let it cool."
std::string caution_line(const std::vector<std::string>& brief, const Sentences& say);

/// The line of the cautions that a step of work carries (`cautions_of_step`), whatever is worked on.
std::string caution_line_of_step(std::string_view step, const Sentences& say);

}  // namespace ohmwright
