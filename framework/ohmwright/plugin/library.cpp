#include <dlfcn.h>
#include <string>
#include <system_error>
#include <utility>

#include <boost/dll/shared_library.hpp>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/library.hpp>
#include <ohmwright/plugin/made_kind.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/sealed_copy.hpp>

namespace ohmwright {

namespace {

[[noreturn]] void refuse(const FoundPlugin& plugin, std::string reason) {
  throw PluginError(plugin.path, {std::move(reason)});
}

/// The dynamic linker's own words, without what Boost puts around them and without the name of our copy.
std::string linker_text(std::string text, const std::string& copy) {
  const std::string before = "dlerror system message: ";
  if (const std::size_t begin = text.find(before); begin != std::string::npos) text.erase(0, begin + before.size());
  if (const std::size_t end = text.rfind("): "); end != std::string::npos) text.erase(end);
  if (text.rfind(copy + ": ", 0) == 0) text.erase(0, copy.size() + 2);
  return one_line(text);  // it may name symbols of the plugin
}

boost::dll::shared_library open_library(const FoundPlugin& plugin, FileDescriptor sealed) {
  using boost::dll::load_mode::type;
  const std::string copy = "/proc/self/fd/" + std::to_string(sealed.number());
  const int mode = boost::dll::load_mode::rtld_now | boost::dll::load_mode::rtld_local | RTLD_NODELETE;
  boost::dll::shared_library library;
  try {
    library.load(copy, static_cast<type>(mode));  // the overload with an error code loses the reason
  } catch (const std::system_error& error) {
    refuse(plugin, "it cannot be loaded: " + linker_text(error.what(), copy));
  }
  // Stays open: the linker knows the library by this number, and would give it out again for another plugin's copy.
  sealed.release();
  return library;
}

const PluginTable& table_of(const FoundPlugin& plugin, const boost::dll::shared_library& library) {
  if (!library.has(plugin_entry_name)) refuse(plugin, std::string("it has no function ") + plugin_entry_name);
  const PluginTable* table = nullptr;
  const auto& entry = library.get<PluginEntry>(plugin_entry_name);
  if (const auto thrown = guarded([&] { table = entry(); }))
    refuse(plugin, std::string("its function ") + plugin_entry_name + " failed: " + *thrown);
  if (table == nullptr) refuse(plugin, "its table is null");
  if (table->size != sizeof(PluginTable)) {
    refuse(plugin, "its table has " + std::to_string(table->size) + " bytes, this program's " +
                       std::to_string(sizeof(PluginTable)));
  }
  const bool creates = plugin.reads_kind_files ? table->create_kind_from != nullptr : table->create_kind != nullptr;
  if (!creates || table->destroy_kind == nullptr) refuse(plugin, "its table has a null function");
  if (table->kind_count != plugin.kinds.size()) {
    refuse(plugin, "its table has " + std::to_string(table->kind_count) + " kinds, its stamp " +
                       std::to_string(plugin.kinds.size()));
  }
  return *table;
}

/// What `load` gives. No memory, a file that vanished: it costs this plugin and nothing else.
template <class Load>
std::shared_ptr<const PluginLibrary> loaded_or_refused(const FoundPlugin& plugin, Load load) {
  try {
    return load();
  } catch (const PluginError&) {
    throw;
  } catch (...) {
    refuse(plugin, "it cannot be loaded: " + text_of_current_exception());
  }
}

}  // namespace

FileDescriptor checked_copy(const FoundPlugin& plugin, ::uid_t user, const AllowList& allowed) {
  const TrustedFile file = open_admitted(plugin.path, user, allowed, plugin.from_installation);
  FileDescriptor sealed = sealed_copy(file);
  const FoundPlugin again = read_plugin(FileBytes(sealed.number(), file.size), file);
  if (again.kinds != plugin.kinds || again.reads_kind_files != plugin.reads_kind_files)
    refuse(plugin, "it was replaced by another plugin meanwhile; start again");
  return sealed;
}

// Members are destroyed from the last to the first: the kinds go before their library.
struct PluginLibrary::Loaded {
  boost::dll::shared_library library;
  const PluginTable* table = nullptr;
  std::vector<MadeKind> kinds;
};

std::unique_ptr<PluginLibrary::Loaded> PluginLibrary::loaded_copy(const FoundPlugin& plugin, FileDescriptor sealed) {
  auto loaded = std::make_unique<Loaded>();
  loaded->library = open_library(plugin, std::move(sealed));
  const PluginTable& table = table_of(plugin, loaded->library);
  loaded->table = &table;
  std::vector<std::string> reasons;
  for (std::uint32_t index = 0; index < table.kind_count; ++index) {
    loaded->kinds.push_back(make_kind(
        table, plugin.kinds[index], [&] { return table.create_kind(index); }, reasons));
  }
  if (!reasons.empty()) throw PluginError(plugin.path, std::move(reasons));
  return loaded;
}

std::unique_ptr<PluginLibrary::Loaded> PluginLibrary::load_checked(const FoundPlugin& plugin, ::uid_t user,
                                                                   const AllowList& allowed) {
  return loaded_copy(plugin, checked_copy(plugin, user, allowed));
}

std::shared_ptr<const PluginLibrary> PluginLibrary::load(const FoundPlugin& plugin, ::uid_t user,
                                                         const AllowList& allowed) {
  return loaded_or_refused(plugin, [&] {
    return std::shared_ptr<const PluginLibrary>(new PluginLibrary(load_checked(plugin, user, allowed)));
  });
}

std::shared_ptr<const PluginLibrary> PluginLibrary::load_sealed(const FoundPlugin& plugin, FileDescriptor sealed) {
  return loaded_or_refused(plugin, [&] {
    return std::shared_ptr<const PluginLibrary>(new PluginLibrary(loaded_copy(plugin, std::move(sealed))));
  });
}

PluginLibrary::PluginLibrary(std::unique_ptr<Loaded> loaded) : loaded_(std::move(loaded)) {}
PluginLibrary::~PluginLibrary() = default;

std::shared_ptr<const Kind> PluginLibrary::kind(std::size_t index) const {
  return {shared_from_this(), loaded_->kinds.at(index).kind.get()};
}

const Descriptor& PluginLibrary::descriptor(std::size_t index) const { return *loaded_->kinds.at(index).descriptor; }

const PluginTable& PluginLibrary::table() const { return *loaded_->table; }

}  // namespace ohmwright
