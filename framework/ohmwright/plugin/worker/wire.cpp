#include <limits>
#include <optional>
#include <utility>
#include <variant>

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/plugin/worker/wire_fields.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

using Wire = nlohmann::json;

[[noreturn]] void not_as_it_should_be() { throw Error(ErrorCategory::plugin, "its answer is not as it should be"); }

// The headers have default values for quantities nowhere, since no default is right: readers begin with this one.
const AnyQuantity no_quantity{Dimension::ratio, 0.0};

class Writer {
 public:
  template <class... Fields>
  void operator()(const Fields&... field) {
    (row_.push_back(written(field)), ...);
  }
  template <class Row>
  static Wire written(const Row& row) {
    if constexpr (std::is_same_v<Row, bool> || std::is_same_v<Row, std::string>) {
      return row;
    } else if constexpr (std::is_same_v<Row, double>) {
      return number_to_wire(row);
    } else if constexpr (std::is_same_v<Row, std::string_view>) {
      return std::string(row);
    } else if constexpr (std::is_enum_v<Row>) {
      return static_cast<unsigned>(row);
    } else if constexpr (std::is_integral_v<Row>) {
      return row;
    } else {
      return of(row);
    }
  }

 private:
  template <class Row>
  static Wire of(const Row& row) {
    Writer writer;
    wire::fields(writer, row);
    return std::move(writer.row_);
  }
  template <class Row>
  static Wire of(const std::vector<Row>& rows) {
    Wire list = Wire::array();
    for (const Row& row : rows) list.push_back(written(row));
    return list;
  }
  template <class Row, std::size_t most>
  static Wire of(const boost::container::static_vector<Row, most>& rows) {
    Wire list = Wire::array();
    for (const Row& row : rows) list.push_back(written(row));
    return list;
  }
  template <class Row>
  static Wire of(const std::optional<Row>& row) {
    return row ? Wire::array({written(*row)}) : Wire::array();
  }
  static Wire of(const AnyQuantity& value) {
    return {static_cast<unsigned>(value.dimension()), number_to_wire(value.value_in_si())};
  }
  static Wire of(const Estimate& estimate) {
    Wire list{number_to_wire(estimate.value())};
    for (const Term& term : estimate.terms()) list.push_back({term.source, number_to_wire(term.standard_uncertainty)});
    return list;
  }
  static Wire of(const std::variant<AnyQuantity, double, std::string>& value) {
    Wire list{value.index()};
    std::visit([&](const auto& held) { list.push_back(written(held)); }, value);
    return list;
  }
  static Wire of(const Observed& observed) { return observed_record(observed).dump(); }
  static Wire of(const ValueNode& node) { return to_wire(node); }

  Wire row_ = Wire::array();
};

class Reader {
 public:
  Reader(const Wire& row, TextPool& texts) : row_(row), texts_(texts) {
    if (!row.is_array()) not_as_it_should_be();
  }
  template <class... Fields>
  void operator()(Fields&... field) {
    if (row_.size() != sizeof...(field)) not_as_it_should_be();
    std::size_t at = 0;
    (read(row_[at++], field), ...);
  }
  template <class Row>
  void read(const Wire& wire, Row& row) {
    if constexpr (std::is_same_v<Row, bool>) {
      if (!wire.is_boolean()) not_as_it_should_be();
      row = wire.get<bool>();
    } else if constexpr (std::is_same_v<Row, std::string>) {
      if (!wire.is_string()) not_as_it_should_be();
      row = wire.get<std::string>();
    } else if constexpr (std::is_same_v<Row, double>) {
      row = number_from_wire(wire);
    } else if constexpr (std::is_same_v<Row, std::string_view>) {
      if (!wire.is_string()) not_as_it_should_be();
      row = texts_.keep(wire.get_ref<const std::string&>());
    } else if constexpr (std::is_enum_v<Row>) {
      row = static_cast<Row>(whole<std::underlying_type_t<Row>>(wire));
    } else if constexpr (std::is_integral_v<Row>) {
      row = whole<Row>(wire);
    } else {
      into(wire, row);
    }
  }

 private:
  template <class Whole>
  static Whole whole(const Wire& wire) {
    if (!wire.is_number_integer()) not_as_it_should_be();
    if (wire.is_number_unsigned()) {
      const auto value = wire.get<std::uint64_t>();
      if (value > static_cast<std::uint64_t>(std::numeric_limits<Whole>::max())) not_as_it_should_be();
      return static_cast<Whole>(value);
    }
    const auto value = wire.get<std::int64_t>();
    if (value < static_cast<std::int64_t>(std::numeric_limits<Whole>::min())) not_as_it_should_be();
    return static_cast<Whole>(value);
  }
  template <class Row>
  void into(const Wire& wire, Row& row) {
    Reader reader(wire, texts_);
    wire::fields(reader, row);
  }
  template <class Row>
  static Row fresh() {
    if constexpr (std::is_same_v<Row, AnyQuantity>)
      return no_quantity;
    else if constexpr (std::is_same_v<Row, FindingArgument>)
      return {{}, 0.0};
    else if constexpr (std::is_same_v<Row, MeasuredRow>)
      return {no_quantity, 0.0, ContactState::open};
    else
      return {};
  }
  template <class Row>
  void into(const Wire& wire, std::vector<Row>& rows) {
    if (!wire.is_array()) not_as_it_should_be();
    for (const Wire& item : wire) {
      Row row = fresh<Row>();
      read(item, row);
      rows.push_back(std::move(row));
    }
  }
  template <class Row, std::size_t most>
  void into(const Wire& wire, boost::container::static_vector<Row, most>& rows) {
    if (!wire.is_array() || wire.size() > most) not_as_it_should_be();
    for (const Wire& item : wire) {
      Row row = fresh<Row>();
      read(item, row);
      rows.push_back(std::move(row));
    }
  }
  template <class Row>
  void into(const Wire& wire, std::optional<Row>& row) {
    if (!wire.is_array() || wire.size() > 1) not_as_it_should_be();
    if (wire.empty()) return;
    Row held = fresh<Row>();
    read(wire[0], held);
    row.emplace(std::move(held));
  }
  void into(const Wire& wire, AnyQuantity& value) {
    if (!wire.is_array() || wire.size() != 2) not_as_it_should_be();
    const auto dimension = whole<std::uint8_t>(wire[0]);
    if (dimension >= dimension_count) not_as_it_should_be();
    value = AnyQuantity(static_cast<Dimension>(dimension), number_from_wire(wire[1]));
  }
  void into(const Wire& wire, Estimate& estimate) {
    if (!wire.is_array() || wire.empty() || wire.size() > Estimate::max_terms + 1) not_as_it_should_be();
    estimate = Estimate(number_from_wire(wire[0]));
    for (std::size_t i = 1; i < wire.size(); ++i) {
      if (!wire[i].is_array() || wire[i].size() != 2) not_as_it_should_be();
      estimate.add_term(whole<SourceIndex>(wire[i][0]), number_from_wire(wire[i][1]));
    }
  }
  void into(const Wire& wire, std::variant<AnyQuantity, double, std::string>& value) {
    if (!wire.is_array() || wire.size() != 2) not_as_it_should_be();
    switch (whole<std::size_t>(wire[0])) {
      case 0:
        value = no_quantity;
        read(wire[1], std::get<AnyQuantity>(value));
        return;
      case 1:
        value = number_from_wire(wire[1]);
        return;
      case 2:
        value = std::string();
        read(wire[1], std::get<std::string>(value));
        return;
      default:
        not_as_it_should_be();
    }
  }
  void into(const Wire& wire, Observed& observed) {
    if (!wire.is_string()) not_as_it_should_be();
    const std::string name = "row";
    const Document document = parse_record(wire.get_ref<const std::string&>(), name);
    observed = RecordReader(name).observed(document.root);
  }
  void into(const Wire& wire, ValueNode& node) { from_wire(wire, node, texts_); }

  const Wire& row_;
  TextPool& texts_;
};

template <class Row>
void read_row(const Wire& wire, Row& row, TextPool& texts) {
  const Wire one = Wire::array({wire});
  Reader(one, texts)(row);
}

}  // namespace

std::string_view TextPool::keep(std::string_view text) {
  constexpr std::size_t most_bytes = std::size_t{1} << 20U;
  const std::lock_guard lock(guard_);
  if (const auto found = known_.find(text); found != known_.end()) return *found;
  bytes_ += text.size() + sizeof(std::string);
  if (bytes_ > most_bytes) throw Error(ErrorCategory::plugin, "it has more texts than any kind needs");
  return *known_.insert(texts_.emplace_back(text)).first;
}

Wire number_to_wire(double number) {
  if (number == number && number - number == 0.0) return number;  // finite
  if (number != number) return "nan";
  return number > 0.0 ? "infinity" : "-infinity";
}

double number_from_wire(const Wire& wire) {
  if (wire.is_number()) return wire.get<double>();
  if (wire == "nan") return std::numeric_limits<double>::quiet_NaN();
  if (wire == "infinity") return std::numeric_limits<double>::infinity();
  if (wire == "-infinity") return -std::numeric_limits<double>::infinity();
  not_as_it_should_be();
}

Wire to_wire(const Descriptor& descriptor) { return Writer::written(descriptor); }
Wire to_wire(const Situation& situation) { return Writer::written(situation); }
Wire to_wire(const Expectation& expectation) { return Writer::written(expectation); }
Wire to_wire(const std::vector<Element>& elements) { return Writer::written(elements); }
Wire to_wire(const std::vector<MeasuredRow>& rows) { return Writer::written(rows); }
Wire to_wire(const Fitting& fitting) { return Writer::written(fitting); }
Wire to_wire(const ComparisonContext& context) { return Writer::written(context); }
Wire to_wire(const std::vector<EquivalenceFinding>& findings) { return Writer::written(findings); }
Wire to_wire(const std::vector<Problem>& problems) { return Writer::written(problems); }

Wire to_wire(const Evidence& evidence) { return Writer::written(parts_of(evidence)); }

Wire to_wire(const Findings& findings) {
  return Wire::array({Writer::written(findings.findings()), Writer::written(findings.advice())});
}

/// [line, pointer, value]: an array as {"a": […]}, an object as {"m": [[name, node], …]}.
Wire to_wire(const ValueNode& node) {
  Wire value;
  if (const bool* flag = node.flag()) value = *flag;
  if (const double* number = node.number()) value = number_to_wire(*number);
  if (const std::string* text = node.text()) value = Wire{{"t", *text}};
  if (const ValueNode::Array* items = node.array()) {
    value = Wire{{"a", Wire::array()}};
    for (const ValueNode& item : *items) value["a"].push_back(to_wire(item));
  }
  if (const ValueNode::Members* members = node.members()) {
    value = Wire{{"m", Wire::array()}};
    for (const auto& [name, member] : *members) value["m"].push_back(Wire::array({name, to_wire(member)}));
  }
  return Wire::array({node.line(), node.pointer(), std::move(value)});
}

void from_wire(const Wire& wire, Descriptor& row, TextPool& texts) { read_row(wire, row, texts); }
void from_wire(const Wire& wire, Situation& row, TextPool& texts) { read_row(wire, row, texts); }
void from_wire(const Wire& wire, Expectation& row, TextPool& texts) { read_row(wire, row, texts); }
void from_wire(const Wire& wire, std::vector<Element>& rows, TextPool& texts) { read_row(wire, rows, texts); }
void from_wire(const Wire& wire, std::vector<MeasuredRow>& rows, TextPool& texts) { read_row(wire, rows, texts); }
void from_wire(const Wire& wire, Fitting& row, TextPool& texts) { read_row(wire, row, texts); }
void from_wire(const Wire& wire, ComparisonContext& row, TextPool& texts) { read_row(wire, row, texts); }
void from_wire(const Wire& wire, std::vector<EquivalenceFinding>& rows, TextPool& texts) {
  read_row(wire, rows, texts);
}
void from_wire(const Wire& wire, std::vector<Problem>& rows, TextPool& texts) { read_row(wire, rows, texts); }

Evidence evidence_from_wire(const Wire& wire) {
  TextPool texts;
  EvidenceParts parts;
  read_row(wire, parts, texts);
  return evidence_of(std::move(parts));
}

void from_wire(const Wire& wire, Findings& findings, TextPool& texts) {
  Reader(wire, texts)(findings.findings(), findings.advice());
}

void from_wire(const Wire& wire, ValueNode& node, TextPool& texts) {
  if (!wire.is_array() || wire.size() != 3 || !wire[0].is_number_integer() || !wire[1].is_string())
    not_as_it_should_be();
  const Wire& held = wire[2];
  ValueNode::Value value;
  if (held.is_boolean()) value = held.get<bool>();
  if (held.is_number() || held.is_string()) value = number_from_wire(held);
  if (held.is_object() && held.contains("t") && held["t"].is_string()) value = held["t"].get<std::string>();
  if (held.is_object() && held.contains("a")) {
    ValueNode::Array items;
    for (const Wire& item : held["a"]) from_wire(item, items.emplace_back(), texts);
    value = std::move(items);
  }
  if (held.is_object() && held.contains("m")) {
    ValueNode::Members members;
    for (const Wire& member : held["m"]) {
      if (!member.is_array() || member.size() != 2 || !member[0].is_string()) not_as_it_should_be();
      auto& [name, child] = members.emplace_back();
      name = member[0].get<std::string>();
      from_wire(member[1], child, texts);
    }
    value = std::move(members);
  }
  node = ValueNode(std::move(value), wire[1].get<std::string>(), wire[0].get<int>());
}

}  // namespace ohmwright
