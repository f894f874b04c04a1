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

// The headers have default values for quantities nowhere, since no default is right: readers begin with this one.
const AnyQuantity no_quantity{Dimension::ratio, 0.0};

class Reader {
 public:
  Reader(const Wire& row, TextPool& texts) : row_(row), texts_(texts) {
    if (!row.is_array()) refuse_wire();
  }
  template <class... Fields>
  void operator()(Fields&... field) {
    if (row_.size() != sizeof...(field)) refuse_wire();
    std::size_t at = 0;
    (read(row_[at++], field), ...);
  }
  template <class Row>
  void read(const Wire& wire, Row& row) {
    if constexpr (std::is_same_v<Row, bool>) {
      if (!wire.is_boolean()) refuse_wire();
      row = wire.get<bool>();
    } else if constexpr (std::is_same_v<Row, std::string>) {
      if (!wire.is_string()) refuse_wire();
      row = wire.get<std::string>();
    } else if constexpr (std::is_same_v<Row, double>) {
      row = number_from_wire(wire);
    } else if constexpr (std::is_same_v<Row, std::string_view>) {
      if (!wire.is_string()) refuse_wire();
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
    if (!wire.is_number_integer()) refuse_wire();
    if (wire.is_number_unsigned()) {
      const auto value = wire.get<std::uint64_t>();
      if (value > static_cast<std::uint64_t>(std::numeric_limits<Whole>::max())) refuse_wire();
      return static_cast<Whole>(value);
    }
    const auto value = wire.get<std::int64_t>();
    if (value < static_cast<std::int64_t>(std::numeric_limits<Whole>::min())) refuse_wire();
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
    if (!wire.is_array()) refuse_wire();
    for (const Wire& item : wire) {
      Row row = fresh<Row>();
      read(item, row);
      rows.push_back(std::move(row));
    }
  }
  template <class Row, std::size_t most>
  void into(const Wire& wire, boost::container::static_vector<Row, most>& rows) {
    if (!wire.is_array() || wire.size() > most) refuse_wire();
    for (const Wire& item : wire) {
      Row row = fresh<Row>();
      read(item, row);
      rows.push_back(std::move(row));
    }
  }
  template <class Row>
  void into(const Wire& wire, std::optional<Row>& row) {
    if (!wire.is_array() || wire.size() > 1) refuse_wire();
    if (wire.empty()) return;
    Row held = fresh<Row>();
    read(wire[0], held);
    row.emplace(std::move(held));
  }
  void into(const Wire& wire, AnyQuantity& value) {
    if (!wire.is_array() || wire.size() != 2) refuse_wire();
    const auto dimension = whole<std::uint8_t>(wire[0]);
    if (dimension >= dimension_count) refuse_wire();
    value = AnyQuantity(static_cast<Dimension>(dimension), number_from_wire(wire[1]));
  }
  void into(const Wire& wire, Estimate& estimate) {
    if (!wire.is_array() || wire.empty() || wire.size() > Estimate::max_terms + 1) refuse_wire();
    estimate = Estimate(number_from_wire(wire[0]));
    for (std::size_t i = 1; i < wire.size(); ++i) {
      if (!wire[i].is_array() || wire[i].size() != 2) refuse_wire();
      estimate.add_term(whole<SourceIndex>(wire[i][0]), number_from_wire(wire[i][1]));
    }
  }
  void into(const Wire& wire, std::variant<AnyQuantity, double, std::string>& value) {
    if (!wire.is_array() || wire.size() != 2) refuse_wire();
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
        refuse_wire();
    }
  }
  void into(const Wire& wire, Observed& observed) {
    if (!wire.is_string()) refuse_wire();
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

void from_wire(const Wire& wire, Descriptor& descriptor, TextPool& texts) { read_row(wire, descriptor, texts); }
void from_wire(const Wire& wire, Situation& situation, TextPool& texts) { read_row(wire, situation, texts); }
void from_wire(const Wire& wire, Expectation& expectation, TextPool& texts) { read_row(wire, expectation, texts); }
void from_wire(const Wire& wire, std::vector<Element>& elements, TextPool& texts) { read_row(wire, elements, texts); }
void from_wire(const Wire& wire, std::vector<MeasuredRow>& rows, TextPool& texts) { read_row(wire, rows, texts); }
void from_wire(const Wire& wire, Fitting& fitting, TextPool& texts) { read_row(wire, fitting, texts); }
void from_wire(const Wire& wire, ComparisonContext& context, TextPool& texts) { read_row(wire, context, texts); }
void from_wire(const Wire& wire, std::vector<EquivalenceFinding>& findings, TextPool& texts) {
  read_row(wire, findings, texts);
}
void from_wire(const Wire& wire, std::vector<Problem>& problems, TextPool& texts) { read_row(wire, problems, texts); }

Evidence evidence_from_wire(const Wire& wire) {
  TextPool texts;
  EvidenceParts parts;
  read_row(wire, parts, texts);
  return evidence_of(std::move(parts));
}

void from_wire(const Wire& wire, Findings& findings, TextPool& texts) {
  Reader(wire, texts)(findings.findings(), findings.advice());
}

}  // namespace ohmwright
