#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/opens_for_good.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/report/sentences.hpp>

#include "part_check.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A sentence as the book keeps it: with plain spaces, cut where it is long; the figures behind it are in the records.
std::string kept_sentence(const std::string& sentence);

/// A row of an entry's "safety": what a rule said of whether the part may be energised.
job::ContentWriter safety_row(std::string_view rule, Outcome outcome);

/// Adds what was read of insulation and earth bond. That they were not read is no finding about them. One of a part
/// at low voltage proves nothing of what lies at the mains (`lies_at_low_voltage`, `is_wire_at_low_voltage`).
struct LiesAtLowVoltage {
  bool part = false;
  bool is_wire = false;
};
void add_safety_of(const PartCheck& check, LiesAtLowVoltage low, std::vector<job::ContentWriter>& all);

/// The page of a part's verdict. Of a good insulation, read by itself, it says that and asks for nothing else; unless
/// the part `was_read_good`, it says that nothing is told of its work.
std::string page_of_part_read(const PartCheck& check, const Arguments& arguments, LiesAtLowVoltage low,
                              bool was_read_good, const Sentences& say, const PageStyle& style);

/// What a verdict adds to the entry of a reading: its records, and its sentences as they were read. `own` are the
/// readings of this entry; those of earlier ones may be judged with them.
void add_verdict(const PartCheck& check, std::span<const Reading> own, const Arguments& arguments, const Sentences& say,
                 job::ContentWriter& content);

}  // namespace ohmwright::cli
