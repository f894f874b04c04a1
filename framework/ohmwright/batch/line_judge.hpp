#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <ohmwright/batch/batch_settings.hpp>
#include <ohmwright/batch/csv_rows.hpp>
#include <ohmwright/batch/line_fields.hpp>
#include <ohmwright/batch/quick_line.hpp>
#include <ohmwright/batch/quick_quantity.hpp>
#include <ohmwright/batch/record_writer.hpp>
#include <ohmwright/batch/strict_line.hpp>
#include <ohmwright/batch/summary.hpp>
#include <ohmwright/batch/tally.hpp>
#include <ohmwright/component/evidence.hpp>

namespace ohmwright::batch {

/// Judges lines one after another; keeps its memory from line to line. One a thread.
class LineJudge {
 public:
  /// `settings` and `parts` must outlive it.
  LineJudge(const BatchSettings& settings, PartSource& parts, std::unique_ptr<InstrumentSource> instruments);

  /// Appends the record of a line of JSON, which `bytes_behind_line` readable bytes follow. Never throws for what
  /// stands in the line.
  void judge_json(std::string_view line, const LinePlace& place, std::string& out);
  /// The same for a row of a table.
  void judge_row(std::string_view row, const std::shared_ptr<const TableHead>& head, const LinePlace& place,
                 std::string& out);
  /// The record of a line that could not even be read.
  void refuse(const LinePlace& place, std::string_view error, std::string& out);

  /// What was found since it was last asked.
  Summary take_summary();
  /// Likewise, as `JudgedBlock` has it.
  std::string take_first_refusal();

 private:
  struct KnownPart {
    JudgedPart part;
    Tally* tally = nullptr;
  };

  void refuse(const RecordHead& head, std::string_view error, std::string& out);
  bool judge_quickly(const LinePlace& place, std::string& out);
  void judge_strictly(std::string_view line, const LinePlace& place, std::string& out);
  KnownPart* known_part(std::string_view kind, std::string_view ratings);
  KnownPart& learn_part(const StrictLine& line);
  void judge_readings(const KnownPart& known, const RecordHead& head, std::vector<Reading>& readings, std::string& out);
  Tally& tally_of(const Descriptor& descriptor);

  const BatchSettings& settings_;
  PartSource& parts_;
  std::unique_ptr<InstrumentSource> instruments_;
  QuickLineReader quick_lines_;
  QuickQuantities quantities_;
  RowReader rows_;
  LineFields fields_;
  std::vector<Reading> readings_;
  StrictLine strict_;
  std::optional<Evidence> evidence_;
  Findings findings_;
  std::string key_;  ///< of `known_`: the kind and the ratings as a line names them
  std::unordered_map<std::string, KnownPart> known_;
  std::unordered_map<const Descriptor*, std::unique_ptr<Tally>> tallies_;
  std::uint64_t refused_ = 0;
  std::string first_refusal_;
};

}  // namespace ohmwright::batch
