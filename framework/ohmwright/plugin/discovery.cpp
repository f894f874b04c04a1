#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <utility>

#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/folder_listing.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/stamp_reader.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

/// The names that are taken, and by whom.
class TakenNames {
 public:
  /// Why the plugin's kinds cannot be added beside those that are there.
  std::vector<std::string> clashes(const FoundPlugin& plugin) const {
    std::vector<Clash> clashes;
    for (const StampedKind& kind : plugin.kinds) {
      if (const Owner* owner = owner_of(kind.id)) clash_with(*owner, clashes).kinds.push_back(kind.id);
      for (const std::string& alias : kind.aliases)
        if (const Owner* owner = owner_of(alias)) clash_with(*owner, clashes).aliases.push_back(alias);
    }
    std::vector<std::string> reasons;
    for (const Clash& clash : clashes) reasons.push_back(told(clash));
    return reasons;
  }

  void take(const FoundPlugin& plugin) {
    for (const StampedKind& kind : plugin.kinds) {
      owners_.try_emplace(spoken_name(kind.id), Owner{kind.id, plugin.path});
      for (const std::string& alias : kind.aliases)
        owners_.try_emplace(spoken_name(alias), Owner{kind.id, plugin.path});
    }
  }

  /// The one plugin that has all its taken names, each under one of its own ids; else empty.
  fs::path other_build_of(const FoundPlugin& plugin) const {
    fs::path other;
    for (const StampedKind& kind : plugin.kinds) {
      std::vector<std::string> names = kind.aliases;
      names.push_back(kind.id);
      for (const std::string& name : names) {
        const Owner* owner = owner_of(name);
        if (owner == nullptr) continue;
        const bool is_its_own = std::any_of(plugin.kinds.begin(), plugin.kinds.end(),
                                            [&](const StampedKind& own) { return own.id == owner->kind; });
        if (!is_its_own || (!other.empty() && other != owner->path)) return {};
        other = owner->path;
      }
    }
    return other;
  }

 private:
  struct Owner {
    std::string kind;
    fs::path path;
  };

  const Owner* owner_of(const std::string& name) const {
    const auto found = owners_.find(spoken_name(name));
    return found == owners_.end() ? nullptr : &found->second;
  }

  /// The names that one owner has already.
  struct Clash {
    const Owner* owner;
    std::vector<std::string> kinds;
    std::vector<std::string> aliases;
  };

  static Clash& clash_with(const Owner& owner, std::vector<Clash>& clashes) {
    const auto known = std::find_if(clashes.begin(), clashes.end(), [&](const Clash& clash) {
      return clash.owner->kind == owner.kind && clash.owner->path == owner.path;
    });
    return known != clashes.end() ? *known : clashes.emplace_back(Clash{&owner, {}, {}});
  }

  static std::string listed(const std::vector<std::string>& names) {
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : ", ") + ohmwright::quoted(name);
    return list;
  }

  static std::string told(const Clash& clash) {
    std::string text;
    if (!clash.kinds.empty()) text += "the name of its kind " + listed(clash.kinds);
    if (!clash.aliases.empty())
      text += (text.empty() ? "its alias" : " and its alias") + std::string(clash.aliases.size() > 1 ? "es " : " ") +
              listed(clash.aliases);
    const bool one = clash.kinds.size() + clash.aliases.size() == 1;
    return text + (one ? " is" : " are") + " taken by the kind " + ohmwright::quoted(clash.owner->kind) + " of " +
           shell_word(clash.owner->path) + "; remove one of the two";
  }

  std::map<std::string, Owner, std::less<>> owners_;
};

/// A folder or file as the user would name it, and where that leads.
struct Place {
  fs::path named;
  fs::path canonical;  ///< every symbolic link followed; empty where it leads nowhere
};

/// Whether NAME/NAME.ohmplug or NAME/NAME.kind.json holds a kind of that name, or reads kind files.
bool is_in_its_own_folder(const FoundPlugin& plugin) {
  const std::vector<StampedKind> named = kind_named_by(plugin.path);
  if (named.empty() || plugin.path.parent_path().filename() != named.front().id) return false;
  return plugin.reads_kind_files || std::any_of(plugin.kinds.begin(), plugin.kinds.end(),
                                                [&](const StampedKind& kind) { return kind.id == named.front().id; });
}

/// A file of the installation that is named after its kind, in the folder of that name.
struct Installed {
  fs::path path;  ///< empty where there is none
  bool is_kind_file = false;
};

Installed installed_as(const fs::path& installation, std::string_view id) {
  for (const std::string_view suffix : {plugin_suffix, kind_file_suffix}) {
    fs::path path = installation / id / (std::string(id) + std::string(suffix));
    std::error_code error;
    if (fs::exists(path, error)) return {std::move(path), suffix == kind_file_suffix};
  }
  return {};
}

/// Nothing where there is none, or where only `discover` can tell why it is not taken.
std::optional<FoundPlugin> read_installed(const Installed& installed, ::uid_t user,
                                          const std::function<KindIndex()>& index) {
  if (installed.path.empty()) return std::nullopt;
  try {
    const TrustedFile file = open_trusted(installed.path, user);
    const FileBytes bytes(file.descriptor.number(), file.size);
    FoundPlugin found = installed.is_kind_file ? read_kind_file(bytes, file, index()) : read_plugin(bytes, file);
    found.from_installation = true;
    if (is_in_its_own_folder(found)) return found;
  } catch (const PluginError&) {  // discover() tells why
  }
  return std::nullopt;
}

class Search {
 public:
  Search(::uid_t user, const AllowList& allowed) : user_(user), allowed_(allowed), walk_(user) {}

  /// `is_installation`: what is found there belongs to the program.
  void search(const fs::path& folder, bool is_installation) {
    is_installation_ = is_installation;
    std::error_code error;
    const Place place{folder, fs::weakly_canonical(folder, error)};
    if (!searched_.insert(place.canonical).second) return;
    std::vector<std::string> reasons = distrust_of_folder(folder, user_);
    if (!reasons.empty()) {
      search_distrusted(place, std::move(reasons));
      return;
    }
    if (is_installation) index_ = read_kind_index(folder, user_);
    consider_files_of(place, true);
    add_those_in_their_own_folders_first();
  }

  /// Without the plugin that reads them, kind files are as good as not there.
  void refuse_kind_files_without_reader() {
    if (result.kind_file_reader) return;
    const auto first = std::stable_partition(result.plugins.begin(), result.plugins.end(),
                                             [](const FoundPlugin& plugin) { return plugin.kind_file == nullptr; });
    for (auto file = first; file != result.plugins.end(); ++file) {
      result.refused.push_back(
          {file->path, {"no plugin that reads kind files was found beside it; install kind-file"}, file->kinds});
    }
    result.plugins.erase(first, result.plugins.end());
  }

  Discovery result;

 private:
  /// Files there can only be taken by what is in them. Where none is, the folder is refused once, not file by file.
  void search_distrusted(const Place& folder, std::vector<std::string> reasons) {
    const std::size_t refused_before = result.refused.size();
    const std::size_t found_before = count_of_found();
    if (!allowed_.empty()) consider_files_of(folder, true);
    add_those_in_their_own_folders_first();
    if (count_of_found() > found_before) return;
    result.refused.resize(refused_before);
    result.refused.push_back({folder.named, std::move(reasons), kinds_named_in(folder.named)});
  }

  /// Nothing there is opened, only what is there is listed: who asks for such a kind is told why it is not taken.
  static std::vector<StampedKind> kinds_named_in(const fs::path& folder) {
    std::vector<StampedKind> kinds;
    std::error_code error;
    constexpr int one_folder_down = 1;
    const auto options = fs::directory_options::skip_permission_denied;
    fs::recursive_directory_iterator entry(folder, options, error);
    for (; !error && entry != fs::recursive_directory_iterator(); entry.increment(error)) {
      if (entry.depth() >= one_folder_down) entry.disable_recursion_pending();
      for (StampedKind& kind : kind_named_by(entry->path())) kinds.push_back(std::move(kind));
    }
    return kinds;
  }

  std::size_t count_of_found() const { return result.plugins.size() + (result.kind_file_reader ? 1U : 0U); }

  /// Considers the plugins right in the folder, and where `and_one_down` those right in its folders.
  void consider_files_of(const Place& folder, bool and_one_down) {
    std::error_code error;
    const std::vector<FolderEntry> entries = entries_of(folder.named, error);
    if (error) result.refused.push_back({folder.named, {"the folder cannot be read: " + error.message()}, {}});
    const auto is_plugin = [](const FolderEntry& entry) {
      return entry.name.ends_with(plugin_suffix) || entry.name.ends_with(kind_file_suffix);
    };
    for (const FolderEntry& entry : entries)
      if (is_plugin(entry)) consider(place_of(entry, folder));
    if (!and_one_down) return;
    for (const FolderEntry& entry : entries)
      if (entry.is_folder && !is_plugin(entry)) consider_files_of(place_of(entry, folder), false);
  }

  /// Only an entry that is a symbolic link itself has a path to be followed.
  static Place place_of(const FolderEntry& entry, const Place& folder) {
    std::error_code error;
    fs::path named = folder.named / entry.name;
    fs::path canonical = entry.is_link ? fs::canonical(named, error) : folder.canonical / entry.name;
    return {std::move(named), std::move(canonical)};
  }

  void consider(const Place& place) {
    const fs::path& path = place.named;
    try {
      const TrustedFile file =
          admit(place.canonical.empty() ? examine_file(path, user_) : examine_file(place.canonical, walk_), path,
                allowed_, is_installation_);
      if (is_known(file)) return;
      const FileBytes bytes(file.descriptor.number(), file.size);
      take_in(is_named_as_kind_file(path) ? read_kind_file(bytes, file, index_) : read_plugin(bytes, file));
    } catch (const PluginError& error) {
      result.refused.push_back({path, error.reasons(), error.kinds().empty() ? kind_named_by(path) : error.kinds()});
    } catch (...) {  // one file that cannot be looked at must not hide the others
      result.refused.push_back({path, {"it cannot be read: " + text_of_current_exception()}, {}});
    }
  }

  bool is_known(const TrustedFile& file) const {
    const auto is_it = [&](const FoundPlugin& plugin) {
      return plugin.device == file.device && plugin.inode == file.inode;
    };
    return std::any_of(result.plugins.begin(), result.plugins.end(), is_it) ||
           std::any_of(read_.begin(), read_.end(), is_it) ||
           (result.kind_file_reader && is_it(*result.kind_file_reader));
  }

  /// Those of the installation wait until all are read.
  void take_in(FoundPlugin plugin) {
    plugin.from_installation = is_installation_;
    if (is_installation_)
      read_.push_back(std::move(plugin));
    else
      add(std::move(plugin));
  }

  void add_those_in_their_own_folders_first() {
    std::stable_partition(read_.begin(), read_.end(), is_in_its_own_folder);
    for (FoundPlugin& plugin : read_) add(std::move(plugin));
    read_.clear();
  }

  void add(FoundPlugin plugin) {
    if (plugin.reads_kind_files) {
      add_reader(std::move(plugin));
      return;
    }
    if (std::vector<std::string> clashes = names_.clashes(plugin); !clashes.empty()) {
      // Its kinds are those of the first plugin.
      result.refused.push_back({plugin.path, std::move(clashes), {}, names_.other_build_of(plugin)});
      return;
    }
    names_.take(plugin);
    result.plugins.push_back(std::move(plugin));
  }

  void add_reader(FoundPlugin plugin) {
    if (!result.kind_file_reader) {
      result.kind_file_reader = std::move(plugin);
      return;
    }
    result.refused.push_back(
        {plugin.path,
         {"kind files are read by " + shell_word(result.kind_file_reader->path) + " already; remove one of the two"},
         {}});
  }

  ::uid_t user_;
  const AllowList& allowed_;
  FolderWalk walk_;
  bool is_installation_ = false;
  KindIndex index_;                ///< the installation's
  std::vector<FoundPlugin> read_;  ///< of the installation, not added yet
  TakenNames names_;
  std::set<fs::path> searched_;
};

}  // namespace

std::vector<fs::path> plugin_folders(const fs::path& installation, std::optional<std::string_view> search_path,
                                     const std::vector<fs::path>& from_options) {
  std::vector<fs::path> folders = {installation};
  std::string_view rest = search_path.value_or(std::string_view());
  while (!rest.empty()) {
    const std::string_view piece = rest.substr(0, rest.find(':'));
    if (!piece.empty()) folders.emplace_back(piece);
    rest.remove_prefix(std::min(piece.size() + 1, rest.size()));
  }
  folders.insert(folders.end(), from_options.begin(), from_options.end());
  return folders;
}

FoundPlugin read_plugin(const ByteSource& bytes, const TrustedFile& file) {
  const FoundStamp found = read_stamp(bytes);
  if (!found.stamp) throw PluginError(file.path, {found.refusal});
  CheckedStamp checked = check_stamp(*found.stamp);
  if (!checked.reasons.empty()) throw PluginError(file.path, std::move(checked.reasons), std::move(checked.kinds));
  return {file.path,
          std::move(checked.kinds),
          std::move(checked.compiler),
          file.device,
          file.inode,
          checked.reads_kind_files,
          false,
          nullptr};
}

std::optional<FoundPlugin> find_named(const fs::path& installation, std::string_view name, ::uid_t user) {
  if (!is_kind_id(name)) return std::nullopt;
  if (const Installed installed = installed_as(installation, name); !installed.path.empty())
    return read_installed(installed, user, [&] { return read_kind_index(installation, user); });
  const KindIndex index = read_kind_index(installation, user);
  const std::string* const id = index.id_of(name);
  if (id == nullptr) return std::nullopt;
  std::optional<FoundPlugin> found = read_installed(installed_as(installation, *id), user, [&] { return index; });
  if (!found || !std::any_of(found->kinds.begin(), found->kinds.end(),
                             [&](const StampedKind& kind) { return is_called(kind, name); }))
    return std::nullopt;
  return found;
}

Discovery discover(const std::vector<fs::path>& folders, ::uid_t user, const AllowList& allowed) {
  Search search(user, allowed);
  for (std::size_t i = 0; i < folders.size(); ++i) {
    std::error_code ignored;
    if (i == 0 && !fs::exists(folders[i], ignored)) continue;
    search.search(folders[i], i == 0);
  }
  search.refuse_kind_files_without_reader();
  return std::move(search.result);
}

}  // namespace ohmwright
