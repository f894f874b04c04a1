#include <atomic>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/descriptor_check.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/library.hpp>
#include <ohmwright/plugin/model_check.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/plugin/worker/worker_kind.hpp>
#include <ohmwright/plugin/worker/worker_process.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

using Wire = nlohmann::json;

/// The field of an answer; anything may be in it, or nothing.
const Wire& field_of(const Wire& answer, const char* name) {
  if (const auto found = answer.find(name); found != answer.end()) return *found;
  refuse_wire();
}

void refuse_misuse(const std::optional<std::string>& misuse) {
  if (misuse) throw Error(ErrorCategory::plugin, *misuse);
}

/// What a kind and its parts share: the process, the texts that came from it, numbers for parts.
struct WorkerLink {
  WorkerLink(const FoundPlugin& plugin, FileDescriptor copy, const WorkerSettings& settings)
      : path(plugin.path), process(plugin, std::move(copy), settings) {}

  /// Asks, and reads the answer by `read`. A process whose answer cannot be read is ended.
  template <class Read>
  auto answer(const Wire& question, Read&& read) {
    const auto turn = process.turn();
    const Wire given = process.ask(question);
    try {
      return read(given);
    } catch (...) {
      process.distrust();
      throw;
    }
  }

  const std::filesystem::path path;
  WorkerProcess process;
  TextPool texts;
  std::atomic<std::uint64_t> next_part{1};
};

/// A part in a worker. Where the process was started anew it is made again, of the same ratings.
class WorkerPart final : public Part {
 public:
  WorkerPart(std::shared_ptr<WorkerLink> link, std::shared_ptr<const Descriptor> descriptor, std::size_t kind,
             Wire ratings)
      : link_(std::move(link)),
        descriptor_(std::move(descriptor)),
        kind_(kind),
        ratings_(std::move(ratings)),
        id_(link_->next_part++) {}
  WorkerPart(const WorkerPart&) = delete;
  WorkerPart& operator=(const WorkerPart&) = delete;
  ~WorkerPart() override {
    guarded([&] {
      const auto turn = link_->process.turn();
      if (is_in_process()) (void)link_->process.ask({{"do", "drop"}, {"part", id_}});
    });
  }

  /// Makes the part in the process as it is now; false with problems when it cannot be.
  bool make(std::vector<Problem>& problems) const {
    const auto turn = link_->process.turn();
    return link_->answer({{"do", "part"}, {"kind", kind_}, {"part", id_}, {"ratings", ratings_}},
                         [&](const Wire& answer) {
                           from_wire(field_of(answer, "problems"), problems, link_->texts);
                           made_in_ = link_->process.generation();
                           return field_of(answer, "made") == true;
                         });
  }

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override {
    asked({{"do", "judge"}, {"evidence", to_wire(evidence)}, {"confidence", number_to_wire(settings.confidence)}},
          [&](const Wire& answer) { from_wire(field_of(answer, "findings"), findings, link_->texts); });
  }

  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override {
    try {
      const auto expected = asked({{"do", "expect"}, {"measurand", measurand}, {"situation", to_wire(situation)}},
                                  [&](const Wire& answer) { return expectation_in(answer); });
      if (expected) refuse_misuse(misuse_of_expectation(*expected, descriptor_->measurands.at(measurand)));
      return expected;
    } catch (const Error& error) {  // who asks for it has no word of the plugin at hand
      throw PluginError(link_->path, {std::string("what a good part reads failed: ") + error.what()});
    }
  }

  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override {
    const ModelAnswer given =
        asked({{"do", "model"}, {"fault", fault_mode}, {"situation", to_wire(situation)}}, [&](const Wire& answer) {
          from_wire(field_of(answer, "elements"), elements, link_->texts);
          return model_answer_in(field_of(answer, "answer"));
        });
    refuse_misuse(misuse_of_elements(elements, *descriptor_));
    return given;
  }

  /// The number of this part in a process that has it.
  std::uint64_t id_in_process() const {
    if (!is_in_process()) {
      std::vector<Problem> problems;
      if (!make(problems)) throw Error(ErrorCategory::plugin, "it cannot make the part again");
    }
    return id_;
  }

 private:
  bool is_in_process() const { return made_in_ != 0 && made_in_ == link_->process.generation(); }

  std::optional<Expectation> expectation_in(const Wire& answer) const {
    const Wire& expected = field_of(answer, "expected");
    if (!expected.is_array() || expected.empty()) return std::nullopt;
    Expectation read{AnyQuantity(Dimension::ratio, 0.0), {}};
    from_wire(expected[0], read, link_->texts);
    return read;
  }
  static ModelAnswer model_answer_in(const Wire& given) {
    if (given == static_cast<unsigned>(ModelAnswer::stated)) return ModelAnswer::stated;
    if (given == static_cast<unsigned>(ModelAnswer::not_applicable)) return ModelAnswer::not_applicable;
    if (given == static_cast<unsigned>(ModelAnswer::unknown)) return ModelAnswer::unknown;
    refuse_wire();
  }

  template <class Read>
  std::invoke_result_t<Read, const Wire&> asked(Wire question, Read&& read) const {
    const auto turn = link_->process.turn();
    question["part"] = id_in_process();
    return link_->answer(question, std::forward<Read>(read));
  }

  std::shared_ptr<WorkerLink> link_;
  std::shared_ptr<const Descriptor> descriptor_;  ///< of its kind, which it may outlive
  std::size_t kind_;
  Wire ratings_;
  std::uint64_t id_;
  mutable std::atomic<std::uint64_t> made_in_{0};
};

/// A kind in a worker.
class WorkerKind final : public Kind {
 public:
  WorkerKind(std::shared_ptr<WorkerLink> link, std::size_t index, const Wire& descriptor)
      : link_(std::move(link)), index_(index) {
    Descriptor read;
    from_wire(descriptor, read, link_->texts);
    descriptor_ = std::make_shared<const Descriptor>(std::move(read));
  }

  const Descriptor& descriptor() const override { return *descriptor_; }

  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override {
    auto part =
        std::make_unique<WorkerPart>(link_, descriptor_, index_, ratings == nullptr ? Wire() : to_wire(*ratings));
    if (!part->make(problems)) return nullptr;
    return part;
  }

  Fitting fit(const FitRequest& request) const override {
    const std::vector<MeasuredRow> rows(request.rows.begin(), request.rows.end());
    Fitting fitting;
    link_->answer({{"do", "fit"},
                   {"kind", index_},
                   {"measurand", request.measurand},
                   {"condition", request.condition},
                   {"rows", to_wire(rows)}},
                  [&](const Wire& answer) { from_wire(field_of(answer, "fitting"), fitting, link_->texts); });
    refuse_misuse(misuse_of_fitting(fitting, rows.size()));
    return fitting;
  }

  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override {
    const auto turn = link_->process.turn();
    const auto* first = dynamic_cast<const WorkerPart*>(&original);
    const auto* second = dynamic_cast<const WorkerPart*>(&candidate);
    if (first == nullptr || second == nullptr)
      throw Error(ErrorCategory::internal, "parts of another process were to be compared");
    // Twice, since making the second may start a new process.
    (void)first->id_in_process();
    (void)second->id_in_process();
    std::vector<EquivalenceFinding> findings;
    link_->answer({{"do", "compare"},
                   {"kind", index_},
                   {"original", first->id_in_process()},
                   {"candidate", second->id_in_process()},
                   {"context", to_wire(context)}},
                  [&](const Wire& answer) { from_wire(field_of(answer, "findings"), findings, link_->texts); });
    refuse_misuse(misuse_of_comparison(findings));
    return findings;
  }

 private:
  std::shared_ptr<WorkerLink> link_;
  std::size_t index_;
  std::shared_ptr<const Descriptor> descriptor_;
};

}  // namespace

std::vector<LoadedKind> kinds_in_worker(const FoundPlugin& plugin, ::uid_t user, const AllowList& allowed,
                                        const WorkerSettings& settings) {
  const auto link = std::make_shared<WorkerLink>(plugin, checked_copy(plugin, user, allowed), settings);
  const Wire loaded = link->process.load();
  std::vector<LoadedKind> made;
  std::vector<std::string> reasons;
  const auto thrown = guarded([&] {
    std::vector<std::string> not_held;
    for (const Wire& missing : field_of(loaded, "not_held")) not_held.push_back(one_line(missing.get<std::string>()));
    const Wire& descriptors = field_of(loaded, "descriptors");
    for (std::size_t i = 0; i < plugin.kinds.size(); ++i) {
      auto kind = std::make_shared<const WorkerKind>(link, i, descriptors.at(i));
      for (std::string& problem : descriptor_problems(kind->descriptor(), plugin.kinds[i]))
        reasons.push_back(std::move(problem));
      const Descriptor& descriptor = kind->descriptor();
      made.emplace_back(std::move(kind), descriptor, plugin.path, not_held);
    }
  });
  if (thrown) reasons.push_back(*thrown);
  if (!reasons.empty()) throw PluginError(plugin.path, std::move(reasons));
  return made;
}

}  // namespace ohmwright
