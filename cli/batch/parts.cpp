#include "batch/parts.hpp"

#include <filesystem>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/kind_file.hpp>
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

BatchParts::BatchParts(const Environment& environment, std::string typed_ratings, std::string typed_control,
                       batch::UsedFiles& used)
    : environment_(environment),
      typed_ratings_(std::move(typed_ratings)),
      typed_control_(std::move(typed_control)),
      used_(used) {}

const Descriptor& BatchParts::kind(const std::string& name) {
  const std::lock_guard lock(opening_);
  const auto [found, is_new] = kinds_.try_emplace(name, nullptr);
  if (!is_new) return *found->second;
  try {
    found->second = &opened_kind(name).descriptor();
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
    found->second = read_part(kind, ratings);
  } catch (...) {
    parts_.erase(found);
    throw;
  }
  return found->second;
}

batch::JudgedPart BatchParts::read_part(const std::string& kind, const std::string& ratings) {
  const bool is_typed = ratings == typed_ratings_;
  if (!is_typed && is_path(ratings))
    throw InputError("a line names a class of ratings, never a file, got " + ohmwright::quoted(ratings) +
                     "; name the file with --ratings");
  const LoadedKind& loaded = opened_kind(kind);
  const std::string control = is_typed ? typed_control_ : std::string();
  RatedPart rated = rated_part(loaded, ratings, control);
  const std::string id(loaded.descriptor().id);
  const auto note = [&](const std::string& role, const std::string& path) {
    used_.note(role + " " + id + "/" + std::filesystem::path(path).stem().string(), path);
  };
  if (!ratings.empty()) note(is_path(ratings) ? "ratings file" : "ratings", ratings_file(loaded, ratings));
  if (!control.empty()) note(is_path(control) ? "control file" : "control", control_file(loaded, control));
  return {&loaded.descriptor(), std::move(rated.part), std::move(rated.name)};
}

/// The kind, noted with what it is made by: its plugin, or its kind file and the plugin that reads those.
const LoadedKind& BatchParts::opened_kind(const std::string& name) {
  const LoadedKind& loaded = open_kind(environment_, name);
  used_.note("kind " + std::string(loaded.descriptor().id), loaded.path().string());
  if (is_named_as_kind_file(loaded.path()))
    for (const FoundPlugin& plugin : environment_.registry.plugins())
      if (plugin.reads_kind_files) used_.note("reader of kind files", plugin.path.string());
  return loaded;
}

std::function<std::unique_ptr<batch::InstrumentSource>()> batch_instruments(const Arguments& arguments,
                                                                            const Environment& environment) {
  return [&arguments, &environment] { return std::make_unique<ThreadInstruments>(arguments, environment); };
}

}  // namespace ohmwright::cli
