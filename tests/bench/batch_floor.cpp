// The floor for `ohmwright batch`, as a process of its own: simdjson reads every field of every line, block by block,
// and nothing is judged. usage: batch_floor LINES [write]
//   LINES  as batch_peers.py makes them
//   write  fmt writes a record for each line too, of the size and with the numbers of those of `ohmwright batch`, to
//   the
//          standard output
#include <charconv>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <iterator>
#include <simdjson.h>
#include <string>
#include <string_view>
#include <unistd.h>

#include <fmt/compile.h>
#include <fmt/format.h>

namespace {

namespace ondemand = simdjson::ondemand;

constexpr std::size_t block_bytes = std::size_t{1} << 20U;

/// The texts of a line.
struct Line {
  std::string_view id;
  std::string_view lot;
  std::string_view value;
  std::size_t bytes_of_the_rest = 0;
};

void read_reading(ondemand::object reading, Line& line) {
  for (auto field : reading) {
    const std::string_view name = field.unescaped_key();
    if (name == "conditions") {
      for (auto condition : field.value().get_object()) {
        line.bytes_of_the_rest += std::string_view(condition.unescaped_key()).size();
        line.bytes_of_the_rest += std::string_view(condition.value().get_string()).size();
      }
      continue;
    }
    const std::string_view text = field.value().get_string();
    if (name == "value") line.value = text;
    line.bytes_of_the_rest += text.size();
  }
}

Line read_line(ondemand::parser& parser, const char* begin, std::size_t size, std::size_t readable) {
  Line line;
  auto document = parser.iterate(simdjson::padded_string_view(begin, size, readable));
  for (auto field : document.get_object()) {
    const std::string_view name = field.unescaped_key();
    if (name == "id") line.id = field.value().get_string();
    if (name == "lot") line.lot = field.value().get_string();
    if (name != "readings") continue;
    for (auto reading : field.value().get_array()) read_reading(reading.get_object(), line);
  }
  return line;
}

/// Six numbers with all their digits, between words as long as those of a record.
void write_record(std::string& out, const char* file, std::size_t number, const Line& line) {
  double value = 0.0;
  std::from_chars(line.value.data(), line.value.data() + line.value.size(), value);
  fmt::format_to(
      std::back_inserter(out),
      FMT_COMPILE(
          R"({{"file":"{}","line":{},"id":"{}","lot":"{}","kind":"defrost-sensor","part":"ntc-10k-b3977",)"
          R"("verdict":"within-limits","probability_within":{},"reasons":[{{"rule":"resistance-within-tolerance",)"
          R"("verdict":"within-limits","measured":{{"value":{},"unit":"ohm","standard_uncertainty":{}}},)"
          R"("limits":{{"lower":{},"upper":{},"unit":"ohm"}},"probability_within":{},)"
          R"("text_id":"within-the-limits-of-its-curve"}}],"advice":["nothing-more-to-do"]}})"
          "\n"),
      file, number, line.id, line.lot, 1.0 / (1.0 + 1e-3 * value), 1000.0 * value / 1.0001, value / 0.21,
      950.0 * value / 1.0003, 1050.0 * value / 1.0007, 1.0 / (1.0 + 1e-3 * value));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) return 2;
  const bool writes = argc > 2;
  const int file = ::open(argv[1], O_RDONLY | O_CLOEXEC);
  ondemand::parser parser;
  std::string held;
  std::string out;
  std::size_t lines = 0;
  std::size_t bytes = 0;
  while (true) {
    const std::size_t had = held.size();
    held.resize(had + block_bytes + simdjson::SIMDJSON_PADDING);
    const ssize_t got = ::read(file, held.data() + had, block_bytes);
    if (got <= 0) break;
    const std::size_t size = had + static_cast<std::size_t>(got);
    std::size_t at = 0;
    while (const void* end = std::memchr(held.data() + at, '\n', size - at)) {
      const auto stop = static_cast<std::size_t>(static_cast<const char*>(end) - held.data());
      const Line line = read_line(parser, held.data() + at, stop - at, held.size() - at);
      bytes += line.bytes_of_the_rest;
      ++lines;
      at = stop + 1;
      if (writes) write_record(out, argv[1], lines, line);
    }
    held.resize(size);
    held.erase(0, at);
    if (writes && ::write(STDOUT_FILENO, out.data(), out.size()) < 0) return 1;
    out.clear();
  }
  std::fprintf(stderr, "%zu lines, %zu bytes of readings\n", lines, bytes);
  return lines > 0 && file >= 0 ? 0 : 1;
}
