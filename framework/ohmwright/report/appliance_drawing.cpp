#include <algorithm>

#include <fmt/format.h>

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view supply_colour = "#8a5d2f";
constexpr std::string_view probe_colour = "#2f5d8a";
constexpr int label_width = 22;

/// A text inside double quotes of a script: a backslash and a quote are escaped, and `&`, which Graphviz reads as an
/// entity. `line_end` stands for a newline: `\\n` centres the line before it, `\\l` puts it to the left.
std::string escaped_for_graphviz(std::string_view text, std::string_view line_end) {
  std::string escaped;
  for (const char letter : with_plain_spaces(text)) {
    if (letter == '\n') escaped += line_end;
    if (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f) continue;
    if (letter == '&')
      escaped += "&amp;";
    else if (letter == '"' || letter == '\\')
      escaped += std::string{'\\', letter};
    else
      escaped += letter;
  }
  return escaped;
}

std::string quoted_for_graphviz(std::string_view text) { return '"' + escaped_for_graphviz(text, "\\n") + '"'; }

/// Broken into short lines, without a last newline.
std::string in_lines(std::string_view text, int width) {
  std::string lines = paragraph(text, width);
  while (!lines.empty() && lines.back() == '\n') lines.pop_back();
  return lines;
}

/// By node: parts between it and the supply's live side, so that a drawing runs down from live to neutral: as wide as
/// the ways beside each other are many, which a page and a telephone show at their full size. Neutral comes
/// last; what the supply does not reach (a plug is pulled there) begins anew.
std::vector<std::size_t> distances_from_live(const Appliance& appliance) {
  constexpr std::size_t far = 1000000;
  std::vector<std::size_t> distance(appliance.nodes.size(), far);
  const MainsSupply& supply = appliance.supply;
  const auto ends_here = [&](std::size_t node) { return node == supply.neutral || node == supply.earth; };
  const auto spread = [&] {
    for (bool changed = true; changed;) {
      changed = false;
      for (const PlacedPart& part : appliance.parts) {
        std::size_t nearest = far;
        for (const auto& node : part.nodes)
          if (node && !ends_here(*node)) nearest = std::min(nearest, distance[*node]);
        for (const auto& node : part.nodes)
          if (node && !ends_here(*node) && nearest + 1 < distance[*node]) {
            distance[*node] = nearest + 1;
            changed = true;
          }
      }
    }
  };
  distance[supply.live] = 0;
  spread();
  for (std::size_t node = 0; node < distance.size(); ++node)
    if (distance[node] >= far && !ends_here(node)) {
      distance[node] = 0;
      spread();
    }
  return distance;
}

/// Writes the script of one drawing.
class DrawingWriter {
 public:
  DrawingWriter(const Appliance& appliance, const PartMarks& marks, const Sentences& say)
      : appliance_(appliance), marks_(marks), say_(say), distance_(distances_from_live(appliance)) {}

  std::string write(TestPointList list) {
    script_ =
        "graph appliance {\n"
        "graph [rankdir=TB nodesep=0.2 ranksep=0.25 fontname=\"sans-serif\" bgcolor=\"white\"]\n"
        "node [fontname=\"sans-serif\" fontsize=11 color=\"#444444\"]\n"
        "edge [fontname=\"sans-serif\" fontsize=8 fontcolor=\"#666666\" color=\"#444444\"]\n";
    if (list == TestPointList::below) write_list();
    script_ +=
        "subgraph cluster_circuit {\npencolor=\"white\"\nlabelloc=t\nfontsize=14\nfontcolor=\"#222222\"\nlabel=" +
        quoted_for_graphviz(appliance_.title) + "\n";
    for (std::size_t node = 0; node < appliance_.nodes.size(); ++node) write_node(node);
    for (std::size_t part = 0; part < appliance_.parts.size(); ++part) write_part(part);
    return script_ + "}\n}\n";
  }

 private:
  /// Numbers of the test points that touch here, such as "▸ 1, 4"; "" for none.
  template <class IsHere>
  std::string numbers(IsHere is_here) const {
    std::string text;
    for (std::size_t i = 0; i < appliance_.test_points.size(); ++i) {
      const TestPoint& point = appliance_.test_points[i];
      if (!is_here(point.from) && (point.probe == Probe::amperes || !is_here(point.to))) continue;
      text += (text.empty() ? "▸ " : ", ") + std::to_string(i + 1);
    }
    return text;
  }

  bool is_earth(std::size_t node) const { return node == appliance_.supply.earth; }

  void write_node(std::size_t node) {
    const bool is_supply = node == appliance_.supply.live || node == appliance_.supply.neutral || is_earth(node);
    const std::string touching = numbers([node](const ProbePlace& place) { return place.node == node; });
    if (is_earth(node) && touching.empty()) return;  // each part has its own sign for it
    std::string label = appliance_.nodes[node];
    if (!touching.empty()) label += "\n" + in_lines(touching, label_width);
    script_ += fmt::format("n{} [shape=ellipse margin=0.02 width=0.3 height=0.2 fontsize=9 label={}", node,
                           quoted_for_graphviz(label));
    if (is_supply) script_ += fmt::format(" penwidth=2 color=\"{}\"", supply_colour);
    if (!touching.empty()) script_ += fmt::format(" style=filled fillcolor=\"#dbe7f3\" fontcolor=\"{}\"", probe_colour);
    script_ += "]\n";
  }

  void write_part(std::size_t index) {
    const PlacedPart& part = appliance_.parts[index];
    const bool only_joins = plays(part.kind->descriptor().roles, role::joins_parts);
    std::string label = in_lines(part.title, label_width);
    if (!part.ratings.empty() && !only_joins) label += "\n" + part.ratings;
    const bool is_marked = index < marks_.size() && marks_[index];
    if (is_marked) label += "\n" + marks_[index]->word;
    script_ += fmt::format("p{} [shape=box label={}", index, quoted_for_graphviz(label));
    if (only_joins) script_ += " fontsize=8 height=0.2 margin=0.04";
    script_ += is_marked ? fmt::format(" style=\"filled{}\" penwidth=2 fillcolor={}", only_joins ? ",rounded" : "",
                                       quoted_for_graphviz(marks_[index]->colour))
                         : std::string(only_joins ? " style=rounded" : "");
    script_ += "]\n";
    const std::optional<std::size_t> first = first_terminal(part);
    for (std::size_t terminal = 0; terminal < part.nodes.size(); ++terminal)
      write_lead(index, terminal, terminal == first);
  }

  /// The terminal nearest to the live side: the part is drawn after it.
  std::optional<std::size_t> first_terminal(const PlacedPart& part) const {
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < part.nodes.size(); ++i)
      if (part.nodes[i] && !is_earth(*part.nodes[i]) &&
          (!first || distance_[*part.nodes[i]] < distance_[*part.nodes[*first]]))
        first = i;
    return first;
  }

  void write_lead(std::size_t index, std::size_t terminal, bool is_first) {
    const PlacedPart& part = appliance_.parts[index];
    const PartTerminal here{index, static_cast<std::uint16_t>(terminal)};
    const std::string touching = numbers([&](const ProbePlace& place) { return place.terminal == here; });
    if (!part.nodes[terminal] && touching.empty()) return;
    std::string label(part.kind->descriptor().terminals[terminal]);
    if (!touching.empty()) label += "\n" + in_lines(touching, label_width);
    std::string other = fmt::format("n{}", part.nodes[terminal].value_or(0));
    if (!part.nodes[terminal]) {  // probed all the same
      other = fmt::format("f{}_{}", index, terminal);
      script_ += other + " [shape=point]\n";
    } else if (is_earth(*part.nodes[terminal])) {
      other = fmt::format("e{}_{}", index, terminal);
      script_ +=
          fmt::format("{} [shape=plaintext fontsize=8 height=0.1 width=0.1 margin=0.02 fontcolor=\"{}\" label={}]\n",
                      other, supply_colour, quoted_for_graphviz(appliance_.nodes[*part.nodes[terminal]]));
    }
    const std::string own = fmt::format("p{}", index);
    script_ += (is_first ? other + " -- " + own : own + " -- " + other) + " [label=" + quoted_for_graphviz(label);
    if (!touching.empty()) script_ += fmt::format(" fontcolor=\"{}\"", probe_colour);
    script_ += "]\n";
  }

  /// Below the drawing, each on a line.
  void write_list() {
    std::string list = say_(OHMWRIGHT_TEXT("Test points")) + "\n";
    for (const std::string& line : test_point_lines(appliance_)) list += line + "\n";
    script_ += fmt::format("labelloc=b\nlabeljust=l\nfontsize=10\nfontcolor=\"{}\"\nlabel=\"{}\"\n", probe_colour,
                           escaped_for_graphviz(list, "\\l"));
  }

  const Appliance& appliance_;
  const PartMarks& marks_;
  const Sentences& say_;
  std::vector<std::size_t> distance_;  ///< by node
  std::string script_;
};

}  // namespace

PartMarks marks_of(std::span<const double> probabilities, const Sentences& say) {
  constexpr double at_fault = 0.95;
  constexpr double possible = 0.05;
  PartMarks marks;
  for (const double probability : probabilities) {
    const FindingArgument chance{"chance", percent_text(probability)};
    if (probability >= at_fault)
      marks.push_back(PartMark{"#f0a8a0", say(OHMWRIGHT_TEXT("AT FAULT, {chance}"), {chance})});
    else if (probability >= possible)
      marks.push_back(PartMark{"#f6e3b4", say(OHMWRIGHT_TEXT("possible, {chance}"), {chance})});
    else
      marks.push_back(PartMark{"#eef4ee", say(OHMWRIGHT_TEXT("unlikely, {chance}"), {chance})});
  }
  return marks;
}

std::vector<std::string> test_point_lines(const Appliance& appliance) {
  const auto unit_of = [](Probe probe) { return probe == Probe::ohms ? "Ω" : probe == Probe::volts ? "V" : "A"; };
  std::vector<std::string> lines;
  for (const TestPoint& point : appliance.test_points)
    lines.push_back(std::to_string(lines.size() + 1) + " " + unit_of(point.probe) + " " + point.title);
  return lines;
}

std::string drawing_script(const Appliance& appliance, const PartMarks& marks, const Sentences& say,
                           TestPointList list) {
  return DrawingWriter(appliance, marks, say).write(list);
}

std::optional<std::string> appliance_drawing(const Appliance& appliance, const PartMarks& marks, const Sentences& say,
                                             TestPointList list) {
  std::optional<std::string> svg = run_program({"dot", "-Tsvg"}, drawing_script(appliance, marks, say, list));
  if (svg && svg->find("<svg") == std::string::npos) return std::nullopt;
  return svg;
}

}  // namespace ohmwright
