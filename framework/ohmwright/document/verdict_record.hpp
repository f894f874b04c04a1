#pragma once

#include <deque>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/uncertainty/error_source.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// A verdict that came from a record, with the error sources that its budget and estimates refer to.
struct RecordedVerdict {
  Verdict verdict;
  std::vector<ErrorSource> sources;
  /// Names of arguments that the verdict's views point to; shared, so that a copy keeps them too.
  std::shared_ptr<const std::deque<std::string>> names;
};

/// A whole verdict as JSON for another process of ours or the job book: every field, rules and texts by their ids,
/// numbers bit for bit. Not what `check --format json` prints (report/).
std::string verdict_record(const Verdict& verdict, const Descriptor& descriptor, std::span<const ErrorSource> sources);

/// The verdict of such a record, equal to the one it was made from, for a kind with the same rule and text ids.
/// Throws DocumentError, its file called `name`.
RecordedVerdict verdict_from_record(std::string_view record, const Descriptor& descriptor,
                                    const std::string& name = "verdict record");

/// Whether two verdicts are equal in everything, numbers bit for bit.
bool equal(const Verdict& a, const Verdict& b);
/// Whether two sources are equal in everything.
bool equal(const ErrorSource& a, const ErrorSource& b);

}  // namespace ohmwright
