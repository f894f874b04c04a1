#include <optional>
#include <utility>
#include <variant>

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/plugin/worker/wire_fields.hpp>

namespace ohmwright {

namespace {

using Wire = nlohmann::json;

/// One value in braces is to one compiler a list of it and to the other a copy: lists of one are made by `Wire::array`.
class Writer {
 public:
  template <class... Fields>
  void operator()(const Fields&... field) {
    (row_.push_back(written(field)), ...);
  }
  template <class Row>
  static Wire written(const Row& row) {
    if constexpr (std::is_same_v<Row, double>) {
      return number_to_wire(row);
    } else if constexpr (std::is_same_v<Row, std::string_view>) {
      return std::string(row);
    } else if constexpr (std::is_enum_v<Row>) {
      return static_cast<unsigned>(row);
    } else if constexpr (std::is_integral_v<Row> || std::is_same_v<Row, std::string>) {
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
    Wire list = Wire::array({number_to_wire(estimate.value())});
    for (const Term& term : estimate.terms()) list.push_back({term.source, number_to_wire(term.standard_uncertainty)});
    return list;
  }
  static Wire of(const std::variant<AnyQuantity, double, std::string>& value) {
    Wire list = Wire::array({value.index()});
    std::visit([&](const auto& held) { list.push_back(written(held)); }, value);
    return list;
  }
  static Wire of(const Observed& observed) { return observed_record(observed).dump(); }
  static Wire of(const ValueNode& node) { return to_wire(node); }

  Wire row_ = Wire::array();
};

}  // namespace

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

}  // namespace ohmwright
