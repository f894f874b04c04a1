#include <chrono>
#include <map>
#include <memory>
#include <new>
#include <optional>
#include <poll.h>
#include <string>
#include <thread>
#include <unistd.h>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/library.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/worker/sandbox.hpp>
#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/plugin/worker/worker_channel.hpp>
#include <ohmwright/plugin/worker/worker_side.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

using Wire = nlohmann::json;

/// The plugin and the parts that were made of it. Whatever it throws leaves as a text.
class WorkerDesk {
 public:
  explicit WorkerDesk(std::shared_ptr<const PluginLibrary> library) : library_(std::move(library)) {}

  Wire answer(const Wire& question) {
    const auto what = question.at("do").get<std::string>();
    if (what == "part") return make_part(question);
    if (what == "drop") return drop(question);
    if (what == "judge") return judge(question);
    if (what == "expect") return expect(question);
    if (what == "model") return model(question);
    if (what == "fit") return fit(question);
    if (what == "compare") return compare(question);
    throw Error(ErrorCategory::internal, "a worker was asked for " + what);
  }

 private:
  const Part& part(const Wire& id) const { return *parts_.at(id.get<std::uint64_t>()); }

  Wire make_part(const Wire& question) {
    std::optional<ValueNode> ratings;
    if (!question.at("ratings").is_null()) from_wire(question["ratings"], ratings.emplace(), texts_);
    std::vector<Problem> problems;
    const std::shared_ptr<const Kind> kind = library_->kind(question.at("kind").get<std::size_t>());
    std::shared_ptr<const Part> made = kind->make_part(ratings ? &*ratings : nullptr, problems);
    const bool any = made != nullptr;
    if (any) parts_[question.at("part").get<std::uint64_t>()] = std::move(made);
    return {{"made", any}, {"problems", to_wire(problems)}};
  }
  Wire drop(const Wire& question) {
    parts_.erase(question.at("part").get<std::uint64_t>());
    return {{"dropped", true}};
  }
  Wire judge(const Wire& question) {
    const Evidence evidence = evidence_from_wire(question.at("evidence"));
    findings_.clear();
    part(question.at("part")).judge(evidence, {number_from_wire(question.at("confidence"))}, findings_);
    return {{"findings", to_wire(findings_)}};
  }
  Situation situation(const Wire& question) {
    Situation made;
    from_wire(question.at("situation"), made, texts_);
    return made;
  }
  Wire expect(const Wire& question) {
    const auto expected =
        part(question.at("part")).expect(question.at("measurand").get<std::uint16_t>(), situation(question));
    return {{"expected", expected ? Wire::array({to_wire(*expected)}) : Wire::array()}};
  }
  Wire model(const Wire& question) {
    std::vector<Element> elements;
    const ModelAnswer answer =
        part(question.at("part"))
            .electrical_model(question.at("fault").get<std::uint16_t>(), situation(question), elements);
    return {{"answer", static_cast<unsigned>(answer)}, {"elements", to_wire(elements)}};
  }
  Wire fit(const Wire& question) {
    std::vector<MeasuredRow> rows;
    from_wire(question.at("rows"), rows, texts_);
    const FitRequest request{question.at("measurand").get<std::uint16_t>(),
                             question.at("condition").get<std::uint16_t>(), rows};
    return {{"fitting", to_wire(library_->kind(question.at("kind").get<std::size_t>())->fit(request))}};
  }
  Wire compare(const Wire& question) {
    ComparisonContext context;
    from_wire(question.at("context"), context, texts_);
    return {
        {"findings", to_wire(library_->kind(question.at("kind").get<std::size_t>())
                                 ->compare(part(question.at("original")), part(question.at("candidate")), context))}};
  }

  std::shared_ptr<const PluginLibrary> library_;
  std::map<std::uint64_t, std::shared_ptr<const Part>> parts_;
  Findings findings_;
  TextPool texts_;
};

/// Texts of a plugin that are no UTF-8 must not end the worker.
std::string line_of(const Wire& answer) { return answer.dump(-1, ' ', false, Wire::error_handler_t::replace); }

FoundPlugin plugin_in(const Wire& first) {
  FoundPlugin plugin;
  plugin.path = first.at("path").get<std::string>();
  for (const Wire& kind : first.at("kinds"))
    plugin.kinds.push_back({kind.at(0).get<std::string>(), kind.at(1).get<std::vector<std::string>>()});
  return plugin;
}

/// What the plugin threw, as the program shows it.
Wire thrown(std::size_t memory_bytes) {
  try {
    throw;
  } catch (const std::bad_alloc&) {
    return {{"thrown", "it asked for more memory than the " + std::to_string(memory_bytes >> 20U) +
                           " MiB that its worker process may have"}};
  } catch (...) {
    return {{"thrown", text_of_current_exception()}};
  }
}

/// Ends the process when the program is gone, also while the plugin does not come back. (The kernel's own signal at a
/// parent's death comes when the one thread ends that started this process.)
void end_with_the_program() {
  std::thread([] {
    ::pollfd line{worker_channel_descriptor, POLLRDHUP, 0};
    while (::poll(&line, 1, -1) < 0) {
    }
    ::_exit(0);
  }).detach();
}

}  // namespace

int live_as_worker(std::size_t memory_bytes) {
  constexpr std::chrono::milliseconds for_ever{-1};
  constexpr std::size_t longest_question = std::size_t{64} << 20U;
  WorkerChannel channel{FileDescriptor(worker_channel_descriptor)};
  NoLine why = NoLine::ended;
  const auto first = channel.receive(for_ever, longest_question, why);
  if (!first) return 0;
  Wire not_held = restrict_before_loading(memory_bytes);
  if (::geteuid() == 0) {
    const Wire refused = {{"refused", Wire::array({"its worker process cannot give up the rights of root"})}};
    (void)channel.send(line_of(refused), for_ever);
    return 0;
  }
  end_with_the_program();
  std::optional<WorkerDesk> desk;
  Wire loaded;
  try {
    const FoundPlugin plugin = plugin_in(Wire::parse(*first));
    const auto library = PluginLibrary::load_sealed(plugin, FileDescriptor(worker_library_descriptor));
    for (const std::string& missing : restrict_after_loading()) not_held.push_back(missing);
    loaded["not_held"] = std::move(not_held);
    for (std::size_t i = 0; i < plugin.kinds.size(); ++i)
      loaded["descriptors"].push_back(to_wire(library->descriptor(i)));
    desk.emplace(library);
  } catch (const PluginError& error) {
    loaded = {{"refused", error.reasons()}};
  } catch (...) {
    loaded = {{"refused", {text_of_current_exception()}}};
  }
  if (!channel.send(line_of(loaded), for_ever) || !desk) return 0;
  while (const auto line = channel.receive(for_ever, longest_question, why)) {
    Wire answer;
    try {
      answer = desk->answer(Wire::parse(*line));
    } catch (...) {
      answer = thrown(memory_bytes);
    }
    if (!channel.send(line_of(answer), for_ever)) return 0;
  }
  return 0;
}

}  // namespace ohmwright
