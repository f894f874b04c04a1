#pragma once

#include <cstdint>
#include <mutex>
#include <optional>
#include <string>
#include <sys/types.h>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/plugin/worker/worker_channel.hpp>
#include <ohmwright/plugin/worker/worker_settings.hpp>

namespace ohmwright {

/// A process that runs one plugin, started when it is first asked and again after it ended. Safe to use from several
/// threads; they take turns.
class WorkerProcess {
 public:
  /// `plugin_copy` is the sealed copy that was checked.
  WorkerProcess(FoundPlugin plugin, FileDescriptor plugin_copy, WorkerSettings settings);
  WorkerProcess(const WorkerProcess&) = delete;
  WorkerProcess& operator=(const WorkerProcess&) = delete;
  ~WorkerProcess();

  /// What the plugin's process says of itself after loading: {"descriptors": […], "held": […]}. Throws PluginError for
  /// what it refuses, and where it does not come that far.
  nlohmann::json load();

  /// Answers one question. Throws Error (plugin) that says how the plugin failed: what it threw, that its process ended
  /// and how, that it gave no answer in time, more than may be, or none that can be read. One that gave none in time
  /// three times is asked no more, so that thousands of lines do not wait for it.
  nlohmann::json ask(const nlohmann::json& question);

  /// Ends the process after an answer that cannot be read, since what it says next may belong to any question.
  void distrust() { (void)end(); }

  /// Which process runs now, counted from 1: what was made in another one is gone. 0 for none.
  std::uint64_t generation() const { return process_ < 0 ? 0 : generation_; }
  /// Keeps the turn for several questions of one caller.
  std::unique_lock<std::recursive_mutex> turn() { return std::unique_lock(turns_); }

 private:
  nlohmann::json start();
  void spawn();
  nlohmann::json exchange(const nlohmann::json& question);
  [[noreturn]] void stop_asking() const;
  [[noreturn]] void fail(NoLine why);
  /// Ends the process, if it runs, and says how it ended.
  std::string end();

  const FoundPlugin plugin_;
  const FileDescriptor copy_;
  const WorkerSettings settings_;
  std::recursive_mutex turns_;
  std::optional<WorkerChannel> channel_;
  ::pid_t process_ = -1;
  std::uint64_t generation_ = 0;
  int late_ = 0;  ///< questions without an answer in time
};

}  // namespace ohmwright
