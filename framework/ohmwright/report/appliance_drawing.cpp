#include <algorithm>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view supply_colour = "#8a5d2f";
constexpr std::string_view probe_colour = "#2f5d8a";
/// Kinds that only join other parts have this role.
constexpr std::string_view joins = "joins-parts";
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

/// Writes the script of one drawing.
class DrawingWriter {
 public:
  DrawingWriter(const Appliance& appliance, const PartMarks& marks, const Sentences& say)
      : appliance_(appliance), marks_(marks), say_(say) {}

  std::string write() {
    script_ =
        "graph appliance {\n"
        "graph [rankdir=LR nodesep=0.3 ranksep=0.5 forcelabels=true fontname=\"sans-serif\" bgcolor=\"white\"]\n"
        "node [fontname=\"sans-serif\" fontsize=11 color=\"#444444\"]\n"
        "edge [fontname=\"sans-serif\" fontsize=8 fontcolor=\"#666666\" color=\"#444444\"]\n";
    script_ += "label=" + quoted_for_graphviz(appliance_.title) + "\nlabelloc=t\n";
    for (std::size_t node = 0; node < appliance_.nodes.size(); ++node) write_node(node);
    for (std::size_t part = 0; part < appliance_.parts.size(); ++part) write_part(part);
    write_list();
    return script_ + "}\n";
  }

 private:
  /// Numbers of the test points that touch here, such as "1, 4".
  template <class IsHere>
  std::string numbers(IsHere is_here) const {
    std::string text;
    for (std::size_t i = 0; i < appliance_.test_points.size(); ++i) {
      const TestPoint& point = appliance_.test_points[i];
      if (!is_here(point.from) && (point.probe == Probe::amperes || !is_here(point.to))) continue;
      text += (text.empty() ? "" : ", ") + std::to_string(i + 1);
    }
    return text;
  }

  void write_node(std::size_t node) {
    const MainsSupply& supply = appliance_.supply;
    const bool is_supply = node == supply.live || node == supply.neutral || node == supply.earth;
    const std::string touching = numbers([node](const ProbePlace& place) { return place.node == node; });
    script_ += fmt::format("n{} [shape=circle margin=0.02 width=0.3 fontsize=9 label={}", node,
                           quoted_for_graphviz(appliance_.nodes[node]));
    if (is_supply) script_ += fmt::format(" penwidth=2 color=\"{}\"", supply_colour);
    if (!touching.empty()) script_ += fmt::format(" style=filled fillcolor=\"#dbe7f3\" xlabel=\"{}\"", "▸ " + touching);
    script_ += "]\n";
  }

  void write_part(std::size_t index) {
    const PlacedPart& part = appliance_.parts[index];
    const std::vector<std::string_view>& roles = part.kind->descriptor().roles;
    const bool only_joins = std::find(roles.begin(), roles.end(), joins) != roles.end();
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
    for (std::size_t terminal = 0; terminal < part.nodes.size(); ++terminal) write_lead(index, terminal);
  }

  void write_lead(std::size_t index, std::size_t terminal) {
    const PlacedPart& part = appliance_.parts[index];
    const PartTerminal here{index, static_cast<std::uint16_t>(terminal)};
    const std::string touching = numbers([&](const ProbePlace& place) { return place.terminal == here; });
    std::string label(part.kind->descriptor().terminals[terminal]);
    if (!touching.empty()) label += "\n▸ " + touching;
    const std::string colour = touching.empty() ? "" : fmt::format(" fontcolor=\"{}\"", probe_colour);
    if (part.nodes[terminal]) {
      script_ +=
          fmt::format("p{} -- n{} [label={}{}]\n", index, *part.nodes[terminal], quoted_for_graphviz(label), colour);
    } else if (!touching.empty()) {  // a terminal without a wire that is probed all the same
      script_ += fmt::format("f{}_{} [shape=point]\n", index, terminal);
      script_ +=
          fmt::format("p{} -- f{}_{} [label={}{}]\n", index, index, terminal, quoted_for_graphviz(label), colour);
    }
  }

  void write_list() {
    constexpr int list_width = 46;
    std::string list = say_(OHMWRIGHT_TEXT("Test points")) + "\n";
    for (std::size_t i = 0; i < appliance_.test_points.size(); ++i)
      list += in_lines(std::to_string(i + 1) + " " + unit_of(appliance_.test_points[i].probe) + " " +
                           appliance_.test_points[i].title,
                       list_width) +
              "\n";
    script_ += fmt::format("list [shape=note fontsize=9 margin=0.15 fontcolor=\"{}\" label=\"{}\"]\n", probe_colour,
                           escaped_for_graphviz(list, "\\l"));
  }

  static std::string unit_of(Probe probe) { return probe == Probe::ohms ? "Ω" : probe == Probe::volts ? "V" : "A"; }

  const Appliance& appliance_;
  const PartMarks& marks_;
  const Sentences& say_;
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

std::string drawing_script(const Appliance& appliance, const PartMarks& marks, const Sentences& say) {
  return DrawingWriter(appliance, marks, say).write();
}

std::optional<std::string> appliance_drawing(const Appliance& appliance, const PartMarks& marks, const Sentences& say) {
  std::optional<std::string> svg = run_program({"dot", "-Tsvg"}, drawing_script(appliance, marks, say));
  if (svg && svg->find("<svg") == std::string::npos) return std::nullopt;
  return svg;
}

}  // namespace ohmwright
