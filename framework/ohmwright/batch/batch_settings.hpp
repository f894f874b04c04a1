#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright::batch {

/// What a line is judged as where it says nothing itself, and how.
struct BatchSettings {
  std::string kind;     ///< empty: each line must say it
  std::string ratings;  ///< a class or a file, of lines of that kind; empty: nothing is known of the part
  JudgeSettings judge = {};
  bool live_agreed = false;  ///< see `refuse_unsafe_readings`
};

/// A part to judge a line by. Its descriptor lives as long as what gave it.
struct JudgedPart {
  const Descriptor* descriptor = nullptr;
  std::shared_ptr<const Part> part;
  std::string name;  ///< of the ratings; empty: nothing is known of the part
};

/// What gives parts: kinds and ratings by name. Safe to use from several threads.
class PartSource {
 public:
  PartSource() = default;
  PartSource(const PartSource&) = delete;
  PartSource& operator=(const PartSource&) = delete;
  virtual ~PartSource() = default;

  /// The kind of that name or alias. Throws InputError or PluginError.
  virtual const Descriptor& kind(const std::string& name) = 0;
  /// A part with these ratings. Throws as `kind` does, and InputError or DocumentError for ratings that cannot be used.
  virtual JudgedPart part(const std::string& kind, const std::string& ratings) = 0;
};

/// The instruments of one thread.
class InstrumentSource {
 public:
  InstrumentSource() = default;
  InstrumentSource(const InstrumentSource&) = delete;
  InstrumentSource& operator=(const InstrumentSource&) = delete;
  virtual ~InstrumentSource() = default;

  virtual const MeterSet& meters() const = 0;
  /// Notes on each reading which instrument read it; `meters` holds it then.
  virtual void choose(std::span<Reading> readings, const Descriptor& descriptor) = 0;
};

/// Where a line stands.
struct LinePlace {
  std::string_view file;
  std::uint64_t line = 0;  ///< counted from 1
};

}  // namespace ohmwright::batch
