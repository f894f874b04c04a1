#include <condition_variable>
#include <cstring>
#include <exception>
#include <map>
#include <mutex>
#include <string_view>
#include <thread>
#include <utility>
#include <vector>

#include <ohmwright/batch/batch_run.hpp>
#include <ohmwright/batch/line_judge.hpp>

namespace ohmwright::batch {

namespace {

void judge_line(LineJudge& judge, std::string_view line, const Block& block, const LinePlace& place,
                std::string& records) {
  const std::size_t first = line.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return;
  if (block.head == nullptr)
    judge.judge_json(line, place, records);
  else if (line[first] != '#')
    judge.judge_row(line, block.head, place, records);
}

void judge_block(LineJudge& judge, const Block& block, JudgedBlock& judged) {
  judged.end = block.end;
  judged.records.clear();
  LinePlace place{block.file, block.begin.lines + 1};
  if (!block.trouble.empty()) judge.refuse(place, block.trouble, judged.records);
  std::string_view rest(block.bytes.data(), block.size);
  for (; !rest.empty(); ++place.line) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    judge_line(judge, rest.substr(0, end), block, place, judged.records);
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  judged.first_refusal = judge.take_first_refusal();
  judged.summary = judge.take_summary();
  judged.summary.cut_short = block.is_cut_short ? 1 : 0;
}

/// What the threads of a run share.
class Run {
 public:
  Run(BlockReader& reader, unsigned threads, const std::function<void(JudgedBlock&)>& take)
      : reader_(reader), most_waiting_(std::uint64_t{2} * threads), take_(take) {}

  bool next(Block& block) {
    const std::lock_guard lock(reading_);
    return !failed() && reader_.next(block);
  }

  /// Hands a result on when its turn has come; else it waits, and so does the thread when too many of them do.
  void deliver(std::uint64_t number, JudgedBlock& judged) {
    std::unique_lock lock(writing_);
    turn_.wait(lock, [&] { return error_ != nullptr || number < next_ + most_waiting_; });
    if (error_ != nullptr) return;
    if (number != next_) {
      std::swap(waiting_.emplace(number, take_spare()).first->second, judged);
      return;
    }
    take_(judged);
    for (auto found = waiting_.find(++next_); found != waiting_.end(); found = waiting_.find(++next_)) {
      take_(found->second);
      spare_.push_back(std::move(found->second));
      waiting_.erase(found);
    }
    turn_.notify_all();
  }

  void fail(std::exception_ptr error) {
    const std::lock_guard lock(writing_);
    if (error_ == nullptr) error_ = std::move(error);
    turn_.notify_all();
  }

  void finish() const {
    if (error_ != nullptr) std::rethrow_exception(error_);
  }

 private:
  bool failed() {
    const std::lock_guard lock(writing_);
    return error_ != nullptr;
  }

  /// A result that was handed on, for its memory: megabytes that are not asked of the system again, which has threads
  /// wait for each other.
  JudgedBlock take_spare() {
    if (spare_.empty()) return {};
    JudgedBlock spare = std::move(spare_.back());
    spare_.pop_back();
    return spare;
  }

  BlockReader& reader_;
  const std::uint64_t most_waiting_;
  const std::function<void(JudgedBlock&)>& take_;
  std::mutex reading_;
  std::mutex writing_;
  std::condition_variable turn_;
  std::map<std::uint64_t, JudgedBlock> waiting_;
  std::vector<JudgedBlock> spare_;
  std::uint64_t next_ = 0;
  std::exception_ptr error_;
};

}  // namespace

void run_batch(BlockReader& reader, const BatchSettings& settings, PartSource& parts,
               const std::function<std::unique_ptr<InstrumentSource>()>& make_instruments, unsigned threads,
               const std::function<void(JudgedBlock&)>& take) {
  Run run(reader, threads, take);
  const auto work = [&] {
    try {
      LineJudge judge(settings, parts, make_instruments());
      Block block;
      JudgedBlock judged;
      while (run.next(block)) {
        judge_block(judge, block, judged);
        run.deliver(block.number, judged);
      }
    } catch (...) {
      run.fail(std::current_exception());
    }
  };
  {
    std::vector<std::jthread> others;
    for (unsigned i = 1; i < threads; ++i) others.emplace_back(work);
    work();
  }
  run.finish();
}

}  // namespace ohmwright::batch
