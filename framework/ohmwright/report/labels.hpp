#pragma once

#include <string>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/report/sentences.hpp>
#include <ohmwright/uncertainty/error_source.hpp>

namespace ohmwright {

/// An outcome as people read it: "IN SPEC", "OUT OF SPEC", "CAN'T TELL YET".
std::string outcome_label(Outcome outcome, const Sentences& sentences);

/// What an error source is, in the reader's words: "the meter's accuracy", "temperature of the part".
std::string source_label(const ErrorSource& source, const Descriptor& descriptor, const Sentences& sentences);

}  // namespace ohmwright
