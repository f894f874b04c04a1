#pragma once

#include <functional>
#include <memory>
#include <string>

#include <ohmwright/batch/batch_settings.hpp>
#include <ohmwright/batch/block_reader.hpp>
#include <ohmwright/batch/summary.hpp>

namespace ohmwright::batch {

/// What became of a block.
struct JudgedBlock {
  InputPosition end;          ///< of the input that it stands for
  std::string records;        ///< whole lines
  std::string first_refusal;  ///< file, line and reason of the first line that was refused; empty: none was
  Summary summary;
};

/// Judges all that `reader` gives by `threads` threads and hands the results to `take`, one after another and in the
/// order of the input; no more than a few blocks a thread are held at a time. What `take` and the reader throw ends the
/// run and is thrown again here. `make_instruments` is called once a thread, from that thread.
void run_batch(BlockReader& reader, const BatchSettings& settings, PartSource& parts,
               const std::function<std::unique_ptr<InstrumentSource>()>& make_instruments, unsigned threads,
               const std::function<void(JudgedBlock&)>& take);

}  // namespace ohmwright::batch
