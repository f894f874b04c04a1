#include "batch_parts.hpp"

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "instruments.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

class ThreadInstruments : public batch::InstrumentSource {
 public:
  ThreadInstruments(const Arguments& arguments, const Environment& environment)
      : instruments_(arguments, environment) {}

  const MeterSet& meters() const override { return instruments_.meters(); }
  void choose(std::span<Reading> readings, const Descriptor& descriptor) override {
    instruments_.choose(readings, descriptor);
  }

 private:
  Instruments instruments_;
};

}  // namespace

BatchParts::BatchParts(const Environment& environment, std::string typed_ratings, std::string typed_control)
    : environment_(environment), typed_ratings_(std::move(typed_ratings)), typed_control_(std::move(typed_control)) {}

const Descriptor& BatchParts::kind(const std::string& name) {
  const std::lock_guard lock(opening_);
  const auto [found, is_new] = kinds_.try_emplace(name, nullptr);
  if (!is_new) return *found->second;
  try {
    found->second = &open_kind(environment_, name).descriptor();
  } catch (...) {
    kinds_.erase(found);
    throw;
  }
  return *found->second;
}

batch::JudgedPart BatchParts::part(const std::string& kind, const std::string& ratings) {
  const std::lock_guard lock(opening_);
  const auto [found, is_new] = parts_.try_emplace({kind, ratings});
  if (!is_new) return found->second;
  try {
    if (ratings != typed_ratings_ && is_path(ratings))
      throw InputError("a line names a class of ratings, never a file, got " + ohmwright::quoted(ratings) +
                       "; name the file with --ratings");
    const LoadedKind& loaded = open_kind(environment_, kind);
    RatedPart rated = rated_part(loaded, ratings, ratings == typed_ratings_ ? typed_control_ : std::string());
    found->second = {&loaded.descriptor(), std::move(rated.part), std::move(rated.name)};
  } catch (...) {
    parts_.erase(found);
    throw;
  }
  return found->second;
}

std::function<std::unique_ptr<batch::InstrumentSource>()> batch_instruments(const Arguments& arguments,
                                                                            const Environment& environment) {
  return [&arguments, &environment] { return std::make_unique<ThreadInstruments>(arguments, environment); };
}

}  // namespace ohmwright::cli
