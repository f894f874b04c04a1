#pragma once

#include <string>
#include <string_view>

#include <ohmwright/batch/batch_settings.hpp>
#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::batch {

/// A text as JSON, quotes around it, appended. The text must be UTF-8.
void append_json_text(std::string& out, std::string_view text);

/// What a record says of its line beside the verdict.
struct RecordHead {
  LinePlace place;
  std::string_view id;   ///< empty: the line had none
  std::string_view lot;  ///< likewise
};

/// The record of a judged line, appended with its newline (schemas/batch-record.schema.json): the verdict, the rules
/// that spoke, the ids of what to do next. SI units, numbers in the shortest form that reads back to them.
void append_verdict_record(std::string& out, const RecordHead& head, const Descriptor& descriptor,
                           std::string_view part, const Verdict& verdict);

/// The record of a line that was refused.
void append_refusal_record(std::string& out, const RecordHead& head, std::string_view error);

}  // namespace ohmwright::batch
