#pragma once

#include <string>

#include <ohmwright/batch/summary.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// The page of a batch's summary: verdicts by kind, what each rule found, the lots and which of them drifted.
std::string batch_page(const batch::Summary& summary, const Sentences& say, const PageStyle& style);

}  // namespace ohmwright
