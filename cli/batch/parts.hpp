#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>

#include <ohmwright/batch/batch_settings.hpp>
#include <ohmwright/batch/used_files.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The kinds and ratings of the program, for a batch. What a line names is a shipped class; only what was typed may be
/// a file.
class BatchParts : public batch::PartSource {
 public:
  /// `typed_ratings` and `typed_control` are those of the command line, for parts of those ratings. What is opened is
  /// noted in `used`, which must outlive it.
  BatchParts(const Environment& environment, std::string typed_ratings, std::string typed_control,
             batch::UsedFiles& used);

  const Descriptor& kind(const std::string& name) override;
  batch::JudgedPart part(const std::string& kind, const std::string& ratings) override;

 private:
  const LoadedKind& opened_kind(const std::string& name);
  batch::JudgedPart read_part(const std::string& kind, const std::string& ratings);

  const Environment& environment_;
  const std::string typed_ratings_;
  const std::string typed_control_;
  batch::UsedFiles& used_;
  std::mutex opening_;
  std::map<std::string, const Descriptor*> kinds_;
  std::map<std::pair<std::string, std::string>, batch::JudgedPart> parts_;
};

/// Makes the instruments of one thread of a batch: those named with `--meter`.
std::function<std::unique_ptr<batch::InstrumentSource>()> batch_instruments(const Arguments& arguments,
                                                                            const Environment& environment);

}  // namespace ohmwright::cli
