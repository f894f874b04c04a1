#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <sys/types.h>
#include <vector>

#include <ohmwright/plugin/allowed/allow_list.hpp>
#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/plugin/folder_walk.hpp>

namespace ohmwright {

/// A file that only its owner can have made as it is: opened once, so that what was checked is what is read.
struct TrustedFile {
  FileDescriptor descriptor;   ///< open for reading
  std::filesystem::path path;  ///< canonical: every symbolic link followed
  std::uint64_t size = 0;      ///< bytes
  std::uint64_t device = 0;    ///< with `inode`: one file by whatever name it was reached
  std::uint64_t inode = 0;
};

/// Opens a file for a program that runs as `user`, when nobody else can have put it there or changed it.
///
/// It must be a regular file that belongs to root or to `user` and that group and others cannot write to; the same
/// holds for every folder above it, but for a folder with the sticky bit, in which others cannot rename or remove it.
/// Checked through descriptors from the root folder down: a name that changes meanwhile cannot slip another file in.
/// Symbolic links are followed first: what counts is where they lead.
/// Throws PluginError with all reasons, each with the command that mends it.
TrustedFile open_trusted(const std::filesystem::path& path, ::uid_t user);

/// A file opened by the same walk, and why it cannot be trusted.
struct ExaminedFile {
  TrustedFile file;                   ///< its descriptor is open only for a regular file that could be reached
  std::vector<std::string> distrust;  ///< empty: it is trusted
};

/// As `open_trusted`, but the reasons are told, not thrown. Throws PluginError only for a file that is not there.
ExaminedFile examine_file(const std::filesystem::path& path, ::uid_t user);

/// The same for a path without symbolic links, on a walk that may have been in its folder before.
ExaminedFile examine_file(const std::filesystem::path& canonical, FolderWalk& walk);

/// As `open_trusted`; and a file that breaks its rules is taken all the same when its bytes are on the list. What is
/// then open is a sealed copy of them, which nobody can change any more, so every use of it sees what was permitted.
/// Where the list is the only way, no other file is taken, but for those of the installation.
TrustedFile open_admitted(const std::filesystem::path& path, ::uid_t user, const AllowList& allowed,
                          bool from_installation);

/// The same for a file that was examined already; `path` is how it was named.
TrustedFile admit(ExaminedFile examined, const std::filesystem::path& path, const AllowList& allowed,
                  bool from_installation);

/// Why a file is refused where the list is the only way, and how to put it there.
std::string reason_not_listed(const std::filesystem::path& path);

/// Why the folder cannot be trusted, by the same rules; empty when it can.
/// A folder that is not there or is no folder gives that as its reason.
std::vector<std::string> distrust_of_folder(const std::filesystem::path& folder, ::uid_t user);

}  // namespace ohmwright
