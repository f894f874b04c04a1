#include <exception>
#include <utility>

#include <ohmwright/batch/line_judge.hpp>
#include <ohmwright/batch/line_readings.hpp>
#include <ohmwright/component/evidence_parts.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/safety/live_readings.hpp>

namespace ohmwright::batch {

LineJudge::LineJudge(const BatchSettings& settings, PartSource& parts, std::unique_ptr<InstrumentSource> instruments)
    : settings_(settings), parts_(parts), instruments_(std::move(instruments)) {}

void LineJudge::judge_json(std::string_view line, const LinePlace& place, std::string& out) {
  if (line.size() > longest_line) return refuse(place, long_line_text(), out);
  if (quick_lines_.read(line, fields_) && judge_quickly(place, out)) return;
  judge_strictly(line, place, out);
}

void LineJudge::judge_row(std::string_view row, const std::shared_ptr<const TableHead>& head, const LinePlace& place,
                          std::string& out) {
  if (row.size() > longest_line) return refuse(place, long_line_text(), out);
  try {
    const bool is_plain = rows_.read(row, head, settings_.kind, parts_, fields_);
    if (is_plain && judge_quickly(place, out)) return;
  } catch (const Error& error) {
    refuse(place, error.what(), out);
    return;
  }
  judge_strictly(rows_.as_json(fields_), place, out);
}

void LineJudge::refuse(const LinePlace& place, std::string_view error, std::string& out) {
  refuse(RecordHead{place, {}, {}}, error, out);
}

void LineJudge::refuse(const RecordHead& head, std::string_view error, std::string& out) {
  append_refusal_record(out, head, error);
  if (refused_++ > 0) return;
  first_refusal_.assign(head.place.file).append(", line ").append(std::to_string(head.place.line)).append(": ");
  first_refusal_ += error;
}

bool LineJudge::judge_quickly(const LinePlace& place, std::string& out) {
  const KnownPart* known = known_part(fields_.kind, fields_.ratings);
  if (known == nullptr) return false;
  if (!make_line_readings(fields_, *known->part.descriptor, instruments_->meters(), quantities_, readings_))
    return false;
  judge_readings(*known, {place, fields_.id, fields_.lot}, readings_, out);
  return true;
}

void LineJudge::judge_strictly(std::string_view line, const LinePlace& place, std::string& out) {
  try {
    read_strict_line(line, settings_, parts_, instruments_->meters(), strict_);
    judge_readings(learn_part(strict_), {place, strict_.id, strict_.lot}, strict_.readings, out);
  } catch (const Error& error) {
    refuse(RecordHead{place, strict_.id, strict_.lot}, error.what(), out);
  }
}

LineJudge::KnownPart* LineJudge::known_part(std::string_view kind, std::string_view ratings) {
  key_.assign(kind);
  key_ += '\n';
  key_ += ratings;
  const auto found = known_.find(key_);
  return found == known_.end() ? nullptr : &found->second;
}

LineJudge::KnownPart& LineJudge::learn_part(const StrictLine& line) {
  if (KnownPart* known = known_part(line.named_kind, line.named_ratings)) return *known;
  const std::string key = key_;
  JudgedPart part = parts_.part(line.kind, line.ratings);
  Tally& tally = tally_of(*part.descriptor);
  return known_.emplace(key, KnownPart{std::move(part), &tally}).first->second;
}

Tally& LineJudge::tally_of(const Descriptor& descriptor) {
  std::unique_ptr<Tally>& tally = tallies_[&descriptor];
  if (tally == nullptr) tally = std::make_unique<Tally>(descriptor);
  return *tally;
}

void LineJudge::judge_readings(const KnownPart& known, const RecordHead& head, std::vector<Reading>& readings,
                               std::string& out) {
  const std::size_t before = out.size();
  const Descriptor& descriptor = *known.part.descriptor;
  try {
    if (settings_.live_agreed) take_agreement_as_live(descriptor, readings);
    refuse_unsafe_readings(readings, descriptor, settings_.live_agreed);
    for (Reading& reading : readings)  // a part that is fed has its leads on
      if (reading.supply == Supply::live) reading.connection = Connection::unstated;
    instruments_->choose(readings, descriptor);
    if (evidence_)
      prepare_again(*evidence_, descriptor, readings, instruments_->meters());
    else
      evidence_.emplace(descriptor, readings, instruments_->meters());
    findings_.clear();
    constexpr bool wants_budget = false;  // no record shows it
    std::variant<Verdict, NotJudged> judged =
        judge_guarded(*known.part.part, descriptor, *evidence_, settings_.judge, std::move(findings_), wants_budget);
    if (const auto* failed = std::get_if<NotJudged>(&judged))
      throw Error(ErrorCategory::plugin, std::string(descriptor.id) + ": " + failed->text);
    auto& verdict = std::get<Verdict>(judged);
    append_verdict_record(out, head, descriptor, known.part.name, verdict);
    known.tally->count(verdict, head.lot);
    findings_.findings() = std::move(verdict.findings);  // their memory serves the next line
    findings_.advice() = std::move(verdict.advice);
  } catch (const Error& error) {
    out.resize(before);
    refuse(head, error.what(), out);
  }
}

std::string LineJudge::take_first_refusal() { return std::exchange(first_refusal_, {}); }

Summary LineJudge::take_summary() {
  Summary summary;
  summary.refused = std::exchange(refused_, 0);
  for (const auto& [descriptor, tally] : tallies_) tally->move_to(summary);
  return summary;
}

}  // namespace ohmwright::batch
