#include <algorithm>
#include <span>

#include <ohmwright/batch/run_part.hpp>
#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::batch {

namespace {

std::string range_text(const ShardRange& range) {
  const std::string first = std::to_string(range.first);
  return range.first == range.second ? first : first + " to " + std::to_string(range.second);
}

std::string in_one_text(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text.empty() ? "none" : text;
}

void refuse_another_run(const RunIdentity& one, const RunIdentity& other) {
  const auto refuse = [](const std::string& what, const std::string& here, const std::string& there) {
    throw InputError("the summaries are of different " + what + ": " + ohmwright::quoted(here, 200) + " and " +
                     ohmwright::quoted(there, 200) + "; add up the shards of one run");
  };
  if (one.program != other.program) refuse("versions of the program", one.program, other.program);
  if (one.options != other.options) refuse("options", in_one_text(one.options), in_one_text(other.options));
  if (one.input != other.input) refuse("input", one.input, other.input);
}

}  // namespace

std::string identity_of(const std::vector<InputFile>& files) {
  std::string list;
  std::uint64_t bytes = 0;
  for (const InputFile& file : files) {
    list += file.path + '\n' + std::to_string(file.bytes) + '\n';
    bytes += file.bytes;
  }
  return std::to_string(files.size()) + (files.size() == 1 ? " file of " : " files of ") + std::to_string(bytes) +
         " bytes, sha256 " + sha256_of(MemoryBytes(std::as_bytes(std::span(list))));
}

std::string RunPart::missing() const {
  std::string text;
  std::uint64_t next = 1;
  const auto add_gap = [&](std::uint64_t end) {
    if (next < end) text += (text.empty() ? "" : ", ") + range_text({next, end - 1});
  };
  for (const ShardRange& range : have) {
    add_gap(range.first);
    next = range.second + 1;
  }
  add_gap(shards + 1);
  return text;
}

void RunPart::add(const RunPart& other) {
  refuse_another_run(run, other.run);
  if (shards != other.shards)
    throw InputError("the summaries are of runs in " + std::to_string(shards) + " and in " +
                     std::to_string(other.shards) + " shards; a shard is sent again with the number of all of them");
  for (const auto& [what, file] : other.files) {
    const auto [found, is_new] = files.try_emplace(what, file);
    if (!is_new && found->second.sha256 != file.sha256)
      throw InputError("the summaries are by two contents of the " + what + ": sha256 " + found->second.sha256 +
                       " and " + file.sha256 + "; judge all shards by the same");
  }
  have.insert(have.end(), other.have.begin(), other.have.end());
  std::sort(have.begin(), have.end());
  std::vector<ShardRange> joined_ranges;
  for (const ShardRange& range : have) {
    if (!joined_ranges.empty() && range.first <= joined_ranges.back().second)
      throw InputError("shard " + range_text({range.first, std::min(range.second, joined_ranges.back().second)}) +
                       " of " + std::to_string(shards) + " is in two of the summaries; name each once");
    if (!joined_ranges.empty() && range.first == joined_ranges.back().second + 1)
      joined_ranges.back().second = range.second;
    else
      joined_ranges.push_back(range);
  }
  have = std::move(joined_ranges);
}

}  // namespace ohmwright::batch
