#include <algorithm>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <utility>

#include <ohmwright/plugin/kind_of_file.hpp>
#include <ohmwright/plugin/library.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>
#include <ohmwright/plugin/worker/worker_kind.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view name_of_reader = "kind-file";

/// Whether the word stands in one of the kind's names: "thermostat" is a word of four kinds, and the name of none.
bool has_word(const StampedKind& kind, const std::string& key) {
  const std::string word = '-' + key + '-';
  const auto holds = [&word](const std::string& name) {
    return ('-' + spoken_name(name) + '-').find(word) != std::string::npos;
  };
  return holds(kind.id) || std::any_of(kind.aliases.begin(), kind.aliases.end(), holds);
}

std::optional<std::size_t> index_called(const std::vector<StampedKind>& kinds, const std::string& key) {
  const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) { return is_called(kind, key); });
  if (found == kinds.end()) return std::nullopt;
  return static_cast<std::size_t>(found - kinds.begin());
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

/// What became of a plugin once it was asked for.
struct Slot {
  std::vector<LoadedKind> kinds;
  std::optional<PluginError> failure;  ///< kept, so that its code does not run a second time
};

/// A plugin that was found by its name alone.
struct NamedPlugin {
  FoundPlugin plugin;
  Slot slot;
};

}  // namespace

/// Every function here is called by one thread at a time.
class Registry::State {
 public:
  State(std::vector<std::filesystem::path> folders, ::uid_t user, RegistryOptions options)
      : folders_(std::move(folders)), user_(user), options_(std::move(options)) {}

  /// All there are, searched for when they are first asked for.
  const Discovery& found() {
    if (!found_) {
      found_ = discover(folders_, user_, options_.allowed);
      slots_.resize(found_->plugins.size());
    }
    return *found_;
  }

  const LoadedKind& kind(std::string_view name_or_alias) {
    const std::string key = spoken_name(name_or_alias);
    if (NamedPlugin* named = plugin_in_its_own_folder(key))
      return loaded(named->plugin, named->slot, *index_called(named->plugin.kinds, key));
    const std::vector<FoundPlugin>& plugins = found().plugins;
    for (std::size_t plugin = 0; plugin < plugins.size(); ++plugin)
      if (const auto kind = index_called(plugins[plugin].kinds, key))
        return loaded(plugins[plugin], slot_of(plugin), *kind);
    for (const RefusedPlugin& refused : found().refused)
      if (index_called(refused.kinds, key)) throw PluginError(refused.path, refused.reasons, refused.kinds);
    throw InputError(unknown(name_or_alias));
  }

  std::mutex one_at_a_time;

 private:
  /// What is nearly always asked for: where it lies in the installation the others need not be looked at. Else null.
  NamedPlugin* plugin_in_its_own_folder(const std::string& name) {
    const auto known = named_.find(name);
    if (known != named_.end()) return &known->second;
    if (found_ || folders_.empty()) return nullptr;
    std::optional<FoundPlugin> plugin = find_named(folders_.front(), name, user_);
    if (!plugin || plugin->reads_kind_files) return nullptr;
    for (auto& [other_name, named] : named_)
      if (named.plugin.path == plugin->path) return &named;
    return &named_.try_emplace(name, NamedPlugin{std::move(*plugin), {}}).first->second;
  }

  /// That of the same file where it was asked for by its name before: it is loaded once.
  Slot& slot_of(std::size_t plugin) {
    for (auto& [name, named] : named_)
      if (named.plugin.path == found_->plugins[plugin].path) return named.slot;
    return slots_[plugin];
  }

  const LoadedKind& loaded(const FoundPlugin& plugin, Slot& slot, std::size_t kind) {
    if (!slot.failure && slot.kinds.empty()) load(plugin, slot);
    if (slot.failure) throw PluginError(*slot.failure);
    return slot.kinds[kind];
  }

  void load(const FoundPlugin& plugin, Slot& slot) {
    try {
      if (plugin.kind_file != nullptr) {
        slot.kinds.push_back(kind_of_file(loaded_reader(), plugin));
        return;
      }
      if (options_.worker && !plugin.from_installation) {
        slot.kinds = kinds_in_worker(plugin, user_, options_.allowed, *options_.worker);
        return;
      }
      const std::shared_ptr<const PluginLibrary> library = PluginLibrary::load(plugin, user_, options_.allowed);
      for (std::size_t i = 0; i < plugin.kinds.size(); ++i)
        slot.kinds.emplace_back(library->kind(i), library->descriptor(i), plugin.path);
    } catch (const PluginError& error) {
      slot.failure = error;
    }
  }

  const PluginLibrary& loaded_reader() {
    if (reader_failure_) throw PluginError(*reader_failure_);
    try {
      if (reader_ == nullptr) reader_ = PluginLibrary::load(found_reader(), user_, options_.allowed);
    } catch (const PluginError& error) {
      reader_failure_ = error;
      throw;
    }
    return *reader_;
  }

  /// The plugin that reads kind files. Without one discovery lets no kind file through.
  FoundPlugin found_reader() {
    if (!found_)
      if (std::optional<FoundPlugin> own = find_named(folders_.front(), name_of_reader, user_);
          own && own->reads_kind_files)
        return std::move(*own);
    const std::optional<FoundPlugin>& reader = found().kind_file_reader;
    if (!reader) throw PluginError(folders_.front(), {"no plugin that reads kind files was found; install kind-file"});
    if (options_.worker && !reader->from_installation)
      throw PluginError(reader->path,
                        {"a plugin that reads kind files runs in the program itself, so it must lie in the "
                         "installation"});
    return *reader;
  }

  std::string unknown(std::string_view name) {
    std::vector<std::string> ids;
    std::vector<std::string> names;
    std::vector<std::string> with_the_word;
    for (const FoundPlugin& plugin : found().plugins) {
      for (const StampedKind& kind : plugin.kinds) {
        ids.push_back(kind.id);
        if (has_word(kind, spoken_name(name))) with_the_word.push_back(kind.id);
        names.push_back(kind.id);
        names.insert(names.end(), kind.aliases.begin(), kind.aliases.end());
      }
    }
    std::string text = "no kind is called " + ohmwright::quoted(name);
    if (with_the_word.size() == 1)
      return text + "; did you mean " + ohmwright::quoted(with_the_word.front()) + "?" + refusals_told();
    if (!with_the_word.empty())
      return text + " alone; say which: " + listed(with_the_word) + " (\"ohmwright kinds\" tells them apart)" +
             refusals_told();
    if (const auto meant = near_miss(name, names)) text += "; did you mean " + ohmwright::quoted(*meant) + "?";
    text += ids.empty() ? "; no plugin was found in " + listed(searched_folders()) : "; there are " + listed(ids);
    return text + refusals_told();
  }

  /// The kind that is looked for may be in what was refused, so its reasons are told here.
  std::string refusals_told() {
    const std::vector<RefusedPlugin>& refused = found().refused;
    constexpr std::size_t most = 3;
    std::string text;
    for (std::size_t i = 0; i < std::min(most, refused.size()); ++i) {
      text += "; refused: " + shell_word(refused[i].path) + ": ";
      for (std::size_t j = 0; j < refused[i].reasons.size(); ++j) text += (j == 0 ? "" : "; ") + refused[i].reasons[j];
    }
    if (refused.size() > most)
      text += "; and " + std::to_string(refused.size() - most) + " more (\"ohmwright kinds\" says why)";
    return text;
  }

  std::vector<std::string> searched_folders() const {
    std::vector<std::string> words;
    for (const std::filesystem::path& folder : folders_) words.push_back(shell_word(folder));
    return words;
  }

  std::vector<std::filesystem::path> folders_;
  ::uid_t user_;
  RegistryOptions options_;
  std::optional<Discovery> found_;
  std::vector<Slot> slots_;                                ///< one a plugin of `found_`
  std::map<std::string, NamedPlugin, std::less<>> named_;  ///< by the name that was asked for
  std::shared_ptr<const PluginLibrary> reader_;            ///< of kind files; null until one is opened
  std::optional<PluginError> reader_failure_;
};

Registry::Registry(const std::vector<std::filesystem::path>& folders, ::uid_t user, RegistryOptions options)
    : state_(std::make_unique<State>(folders, user, std::move(options))) {}
Registry::Registry(Registry&&) noexcept = default;
Registry& Registry::operator=(Registry&&) noexcept = default;
Registry::~Registry() = default;

const std::vector<FoundPlugin>& Registry::plugins() const {
  const std::lock_guard lock(state_->one_at_a_time);
  return state_->found().plugins;
}

const std::vector<RefusedPlugin>& Registry::refused() const {
  const std::lock_guard lock(state_->one_at_a_time);
  return state_->found().refused;
}

const LoadedKind& Registry::kind(std::string_view name_or_alias) const {
  const std::lock_guard lock(state_->one_at_a_time);
  return state_->kind(name_or_alias);
}

}  // namespace ohmwright
