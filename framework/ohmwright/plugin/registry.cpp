#include <algorithm>
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

bool is_called(const StampedKind& kind, const std::string& key) {
  return spoken_name(kind.id) == key || std::any_of(kind.aliases.begin(), kind.aliases.end(),
                                                    [&](const auto& alias) { return spoken_name(alias) == key; });
}

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

}  // namespace

struct Registry::State {
  std::vector<std::filesystem::path> folders;
  ::uid_t user = 0;
  RegistryOptions options;
  Discovery found;
  std::vector<Slot> slots;                      ///< one a plugin found
  std::shared_ptr<const PluginLibrary> reader;  ///< of kind files; null until one is opened
  std::optional<PluginError> reader_failure;
  std::mutex loading;

  const LoadedKind& loaded(std::size_t plugin, std::size_t kind) {
    const std::lock_guard lock(loading);
    Slot& slot = slots[plugin];
    if (!slot.failure && slot.kinds.empty()) load(found.plugins[plugin], slot);
    if (slot.failure) throw PluginError(*slot.failure);
    return slot.kinds[kind];
  }

  void load(const FoundPlugin& plugin, Slot& slot) {
    try {
      if (plugin.kind_file != nullptr) {
        slot.kinds.push_back(kind_of_file(loaded_reader(), plugin));
        return;
      }
      if (options.worker && !plugin.from_installation) {
        slot.kinds = kinds_in_worker(plugin, user, options.allowed, *options.worker);
        return;
      }
      const std::shared_ptr<const PluginLibrary> library = PluginLibrary::load(plugin, user, options.allowed);
      for (std::size_t i = 0; i < plugin.kinds.size(); ++i)
        slot.kinds.emplace_back(library->kind(i), library->descriptor(i), plugin.path);
    } catch (const PluginError& error) {
      slot.failure = error;
    }
  }

  /// Without a reader discovery lets no kind file through.
  const PluginLibrary& loaded_reader() {
    if (reader_failure) throw PluginError(*reader_failure);
    try {
      if (options.worker && !found.kind_file_reader->from_installation)
        throw PluginError(found.kind_file_reader->path,
                          {"a plugin that reads kind files runs in the program itself, so it must lie in the "
                           "installation"});
      if (reader == nullptr) reader = PluginLibrary::load(*found.kind_file_reader, user, options.allowed);
    } catch (const PluginError& error) {
      reader_failure = error;
      throw;
    }
    return *reader;
  }

  std::string unknown(std::string_view name) const {
    std::vector<std::string> ids;
    std::vector<std::string> names;
    std::vector<std::string> with_the_word;
    for (const FoundPlugin& plugin : found.plugins) {
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
  std::string refusals_told() const {
    constexpr std::size_t most = 3;
    std::string text;
    for (std::size_t i = 0; i < std::min(most, found.refused.size()); ++i) {
      text += "; refused: " + shell_word(found.refused[i].path) + ": ";
      for (std::size_t j = 0; j < found.refused[i].reasons.size(); ++j)
        text += (j == 0 ? "" : "; ") + found.refused[i].reasons[j];
    }
    if (found.refused.size() > most)
      text += "; and " + std::to_string(found.refused.size() - most) + " more (\"ohmwright kinds\" says why)";
    return text;
  }

  std::vector<std::string> searched_folders() const {
    std::vector<std::string> words;
    for (const std::filesystem::path& folder : folders) words.push_back(shell_word(folder));
    return words;
  }
};

Registry::Registry(const std::vector<std::filesystem::path>& folders, ::uid_t user, RegistryOptions options)
    : state_(std::make_unique<State>()) {
  state_->folders = folders;
  state_->user = user;
  state_->options = std::move(options);
  state_->found = discover(folders, user, state_->options.allowed);
  state_->slots.resize(state_->found.plugins.size());
}
Registry::Registry(Registry&&) noexcept = default;
Registry& Registry::operator=(Registry&&) noexcept = default;
Registry::~Registry() = default;

const std::vector<FoundPlugin>& Registry::plugins() const { return state_->found.plugins; }
const std::vector<RefusedPlugin>& Registry::refused() const { return state_->found.refused; }

const LoadedKind& Registry::kind(std::string_view name_or_alias) const {
  const std::string key = spoken_name(name_or_alias);
  const Discovery& found = state_->found;
  for (std::size_t plugin = 0; plugin < found.plugins.size(); ++plugin)
    if (const auto kind = index_called(found.plugins[plugin].kinds, key)) return state_->loaded(plugin, *kind);
  for (const RefusedPlugin& refused : found.refused)
    if (index_called(refused.kinds, key)) throw PluginError(refused.path, refused.reasons, refused.kinds);
  throw InputError(state_->unknown(name_or_alias));
}

}  // namespace ohmwright
