#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/document/document.hpp>
#include <ohmwright/plugin/byte_source.hpp>
#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/kind_index.hpp>
#include <ohmwright/plugin/trust.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

// A kind without C++: a file KIND.kind.json (schemas/kind.schema.json), of which one plugin makes kinds. Here it is
// read and checked as far as that goes without running anything of a plugin.

inline constexpr std::string_view kind_file_suffix = ".kind.json";

/// Whether a file's name says that it is a kind file.
bool is_named_as_kind_file(const std::filesystem::path& path);

/// The kind that a plugin or a kind file of that name holds, as far as its name tells: a kind file's is that of its
/// kind, a library's mostly. None where that cannot be one.
std::vector<StampedKind> kind_named_by(const std::filesystem::path& path);

/// A kind file's text, read and checked: its schema, its id, which must be that of its name, its aliases, and options
/// that the command line has already. Throws PluginError with all reasons, and with the kind's names where they can be
/// read.
Document checked_kind_file(const std::string& text, const std::filesystem::path& path);

/// Takes in a kind file that is trusted. Where the index knows its bytes its names are taken from there, and it is
/// checked when its kind is asked for; else it is checked here, as `checked_kind_file` does. Throws PluginError as
/// that.
FoundPlugin read_kind_file(const ByteSource& bytes, const TrustedFile& file, const KindIndex& index = {});

/// "line 12, /rules/0/limits: text" for each problem, on one line and fit for a terminal.
std::vector<std::string> reasons_of(const std::vector<Problem>& problems);

}  // namespace ohmwright
