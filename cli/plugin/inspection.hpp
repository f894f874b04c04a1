#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/plugin/stamp_check.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::cli {

/// What a library's stamp says of it.
struct StampWords {
  std::string compiler;
  std::uint32_t abi = 0;
  std::string build_tag;
  bool reads_kind_files = false;
};

/// What a file is, found without running anything of it.
struct PluginInspection {
  std::filesystem::path file;
  bool is_kind_file = false;
  std::vector<StampedKind> kinds;
  std::optional<StampWords> stamp;  ///< of a library, where it has one
  std::string sha256;
  bool permitted = false;            ///< its bytes are on the user's list
  std::vector<std::string> refused;  ///< why it would not be taken; empty: it would
};

std::string inspection_page(const PluginInspection& inspection, const Sentences& say, const PageStyle& style);

/// By schemas/plugin-inspection.schema.json.
std::string inspection_json(const PluginInspection& inspection);

}  // namespace ohmwright::cli
