#include <algorithm>
#include <atomic>
#include <mutex>
#include <utility>

#include <ohmwright/appliance/tolerant_parts.hpp>
#include <ohmwright/plugin/guard.hpp>

namespace ohmwright {

namespace {

class NotedFailures final : public PartFailures {
 public:
  std::vector<FailedPart> all() const override {
    const std::lock_guard lock(guard_);
    return noted_;
  }
  void note(std::size_t part, std::string text) {
    const std::lock_guard lock(guard_);
    noted_.push_back({part, std::move(text)});
  }

 private:
  mutable std::mutex guard_;
  std::vector<FailedPart> noted_;
};

/// A part of which nothing is known any more once its plugin failed in its electrical model.
class TolerantPart final : public Part {
 public:
  TolerantPart(std::shared_ptr<const Part> part, std::size_t index, std::shared_ptr<NotedFailures> failures)
      : part_(std::move(part)), index_(index), failures_(std::move(failures)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override {
    part_->judge(evidence, settings, findings);
  }
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override {
    return part_->expect(measurand, situation);
  }
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override {
    if (has_failed_) return ModelAnswer::unknown;
    ModelAnswer answer = ModelAnswer::unknown;
    const std::size_t before = elements.size();
    const auto thrown = guarded([&] { answer = part_->electrical_model(fault_mode, situation, elements); });
    if (!thrown) return answer;
    elements.erase(elements.begin() + static_cast<std::ptrdiff_t>(before), elements.end());
    if (!has_failed_.exchange(true)) failures_->note(index_, *thrown);
    return ModelAnswer::unknown;
  }

 private:
  std::shared_ptr<const Part> part_;
  std::size_t index_;
  std::shared_ptr<NotedFailures> failures_;
  mutable std::atomic<bool> has_failed_{false};
};

}  // namespace

std::shared_ptr<const PartFailures> tolerate_failures(Appliance& appliance) {
  auto failures = std::make_shared<NotedFailures>();
  for (std::size_t i = 0; i < appliance.parts.size(); ++i) {
    PlacedPart& placed = appliance.parts[i];
    if (placed.kind != nullptr && placed.kind->is_in_worker())
      placed.part = std::make_shared<const TolerantPart>(placed.part, i, failures);
  }
  return failures;
}

}  // namespace ohmwright
