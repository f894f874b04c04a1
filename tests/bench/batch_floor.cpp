// The floor for `ohmwright batch`: simdjson reads every field of every line, and fmt writes the bytes of the same
// records from numbers that are at hand, with no judging between. usage: batch_floor LINES RECORDS
//   LINES    as batch_peers.py makes them; RECORDS: what `ohmwright batch LINES` gave
// Prints the user time of reading and writing alone, and fails when a byte differs.
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iterator>
#include <simdjson.h>
#include <string>
#include <string_view>
#include <sys/resource.h>
#include <vector>

#include <fmt/format.h>

namespace {

namespace ondemand = simdjson::ondemand;

std::string whole(const char* path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

double user_seconds() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_utime.tv_sec) + 1e-6 * static_cast<double>(usage.ru_utime.tv_usec);
}

/// A record taken apart: numbers, and the texts between them that do not stand in the line.
struct Parts {
  std::vector<double> numbers;
  std::vector<std::string_view> texts;  ///< one more than numbers
};

Parts taken_apart(std::string_view record) {
  Parts parts;
  std::size_t begin = record.find("\"kind\"");  // what stands before comes from the line
  std::size_t at = begin;
  while (at < record.size()) {
    const bool is_number = record[at - 1] == ':' && std::strchr("-0123456789", record[at]) != nullptr;
    if (!is_number) {
      ++at;
      continue;
    }
    parts.texts.push_back(record.substr(begin, at - begin));
    const std::size_t end = record.find_first_of(",}", at);
    parts.numbers.push_back(std::stod(std::string(record.substr(at, end - at))));
    begin = at = end;
  }
  parts.texts.push_back(record.substr(begin));
  return parts;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  std::string lines = whole(argv[1]);
  const std::size_t size = lines.size();
  lines.append(simdjson::SIMDJSON_PADDING, ' ');
  const std::string records = whole(argv[2]);
  std::vector<Parts> parts;
  for (std::size_t at = 0; at < records.size();) {
    const std::size_t end = records.find('\n', at);
    parts.push_back(taken_apart(std::string_view(records).substr(at, end + 1 - at)));
    at = end + 1;
  }

  const double start = user_seconds();
  ondemand::parser parser;
  std::string out;
  std::size_t checked = 0;
  std::size_t read_bytes = 0;
  std::size_t line = 0;
  double comparing = 0.0;
  for (std::size_t at = 0; at < size; ++line) {
    const std::size_t end = static_cast<std::size_t>(
        static_cast<const char*>(std::memchr(lines.data() + at, '\n', size - at)) - lines.data());
    auto document = parser.iterate(simdjson::padded_string_view(lines.data() + at, end - at, lines.size() - at));
    std::string_view id;
    std::string_view lot;
    for (auto field : document.get_object()) {
      const std::string_view name = field.unescaped_key();
      if (name == "id") id = field.value().get_string();
      if (name == "lot") lot = field.value().get_string();
      if (name != "readings") continue;
      for (auto reading : field.value().get_array())
        for (auto inner : reading.get_object()) {
          const std::string_view key = inner.unescaped_key();
          if (key != "conditions") {
            read_bytes += std::string_view(inner.value().get_string()).size();
            continue;
          }
          for (auto condition : inner.value().get_object()) {
            read_bytes += std::string_view(condition.unescaped_key()).size();
            read_bytes += std::string_view(condition.value().get_string()).size();
          }
        }
    }
    at = end + 1;
    const Parts& record = parts[line];
    fmt::format_to(std::back_inserter(out), R"({{"file":"{}","line":{},"id":"{}","lot":"{}",)", argv[1], line + 1, id,
                   lot);
    for (std::size_t i = 0; i < record.numbers.size(); ++i)
      fmt::format_to(std::back_inserter(out), "{}{}", record.texts[i], record.numbers[i]);
    out += record.texts.back();
    if (out.size() < (1U << 20U) && at < size) continue;
    const double before = user_seconds();
    if (records.compare(checked, out.size(), out) != 0) {
      std::fprintf(stderr, "the bytes differ before line %zu\n", line);
      return 1;
    }
    checked += out.size();
    out.clear();
    comparing += user_seconds() - before;
  }
  std::printf("%.3f\n", user_seconds() - start - comparing);
  return read_bytes > 0 && checked == records.size() ? 0 : 1;
}
