#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// An instrument beside the usual meter: a tester of insulation, a clamp.
struct OtherInstrument {
  std::string measurand;  ///< id of what it read
  std::string title;
  bool assumed = false;

  friend bool operator==(const OtherInstrument&, const OtherInstrument&) = default;
};

/// For whom a page is: only who types a command is told which option changes what was assumed.
enum class Audience { who_types, who_is_handed_the_page };

/// A verdict with all that its page needs. Refers to what the caller keeps.
struct VerdictReport {
  const Descriptor& descriptor;
  const Verdict& verdict;
  const Evidence& evidence;
  std::span<const Reading> readings;
  double confidence = 0.95;
  std::string part_name;   ///< name of the ratings; empty when nothing is known of the part
  std::string part_title;  ///< what people call it
  std::string meter_title;
  bool meter_assumed = false;
  std::vector<OtherInstrument> other_instruments = {};
  std::string made_with = {};     ///< the program and the day, at the foot of a page for others
  bool every_rule = false;        ///< on the page: also why each rule stayed silent
  bool cautions_in_full = false;  ///< on the page: every caution's whole text, not its few words
};

/// Identifiers of the cautions that a verdict carries, each once: those of the first procedure for what was read, what
/// live and wet readings add, and those of the procedures that the advice asks for.
std::vector<std::string_view> caution_ids(const Descriptor& descriptor, std::span<const Reading> readings,
                                          std::span<const Advice> advice);

/// The English texts of a caution and the gettext domain they are translated in: the kind's own, else the framework's.
struct CautionText {
  std::string_view domain;
  std::string_view brief;
  std::string_view english;
};
CautionText caution_text(const Descriptor& descriptor, std::string_view id);

/// The page of a verdict: cautions, the verdict, why, the readings, where the doubt comes from, what to do next.
std::string verdict_page(const VerdictReport& report, const Sentences& say, const PageStyle& style);

struct Chart;

/// The verdict as a whole HTML page; `chart` (many points, the readings marked) becomes its picture, null for none.
std::string verdict_html(const VerdictReport& report, const Chart* chart, const Sentences& say);

/// The verdict for programs (schemas/verdict.schema.json), SI units, indented, with a final newline.
std::string verdict_json(const VerdictReport& report, const Sentences& say);

}  // namespace ohmwright
