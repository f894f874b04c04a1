#pragma once

#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <sys/stat.h>
#include <unistd.h>
#include <vector>

namespace ohmwright::test {

inline std::filesystem::path fixture(const std::string& name) {
  return std::filesystem::path(OHMWRIGHT_FIXTURE_FOLDER) / (name + ".ohmplug");
}

inline std::vector<std::byte> bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  const auto* begin = reinterpret_cast<const std::byte*>(text.data());
  return {begin, begin + text.size()};
}

/// A new folder that only this user can write to, whatever the build folder is like; removed with its contents.
class PluginFolder {
 public:
  PluginFolder() {
    std::string name =
        (std::filesystem::canonical(std::filesystem::temp_directory_path()) / "ohmwright-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("cannot make a folder for a test");
    path_ = name;
  }
  PluginFolder(const PluginFolder&) = delete;
  PluginFolder& operator=(const PluginFolder&) = delete;
  ~PluginFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  const std::filesystem::path& path() const { return path_; }
  std::vector<std::filesystem::path> list() const { return {path_}; }

  /// Copies a fixture in, as NAME.ohmplug or as `as`, readable by all and writable by its owner.
  std::filesystem::path add(const std::string& name, const std::string& as = {}) const {
    return write(as.empty() ? name + ".ohmplug" : as, bytes_of(fixture(name)));
  }

  std::filesystem::path write(const std::string& name, const std::vector<std::byte>& bytes) const {
    const std::filesystem::path path = path_ / name;
    std::filesystem::create_directories(path.parent_path());
    set_mode(path.parent_path(), 0755);
    std::ofstream file(path, std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    file.close();
    set_mode(path, 0644);
    return path;
  }

  static void set_mode(const std::filesystem::path& path, ::mode_t mode) {
    if (::chmod(path.c_str(), mode) != 0) throw std::runtime_error("cannot change the mode of " + path.string());
  }

 private:
  std::filesystem::path path_;
};

}  // namespace ohmwright::test
