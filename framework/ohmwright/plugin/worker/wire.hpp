#pragma once

#include <deque>
#include <mutex>
#include <set>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/component/kind.hpp>

namespace ohmwright {

// What crosses between the program and a worker, as JSON. Both ends are of one installation and of one build tag, so
// rows are lists of their fields in the order of the headers. Numbers come back bit for bit. Everything that comes from
// a worker may be anything: the readers throw Error (plugin) at the first thing that is not as it should be.

/// Texts that rows point into, each kept once. Bounded, so that a worker cannot fill the program's memory with names.
class TextPool {
 public:
  /// The text, as it stays for as long as the pool. Throws Error (plugin) past a million bytes of them.
  std::string_view keep(std::string_view text);

 private:
  std::mutex guard_;
  std::deque<std::string> texts_;
  std::set<std::string_view> known_;
  std::size_t bytes_ = 0;
};

/// Throws Error (plugin): what came from a worker is not as it should be.
[[noreturn]] void refuse_wire();

nlohmann::json to_wire(const Descriptor& descriptor);
nlohmann::json to_wire(const Evidence& evidence);
nlohmann::json to_wire(const Findings& findings);
nlohmann::json to_wire(const Situation& situation);
nlohmann::json to_wire(const Expectation& expectation);
nlohmann::json to_wire(const std::vector<Element>& elements);
nlohmann::json to_wire(const std::vector<MeasuredRow>& rows);
nlohmann::json to_wire(const Fitting& fitting);
nlohmann::json to_wire(const ComparisonContext& context);
nlohmann::json to_wire(const std::vector<EquivalenceFinding>& findings);
nlohmann::json to_wire(const std::vector<Problem>& problems);
nlohmann::json to_wire(const ValueNode& node);
/// Numbers that JSON does not have ("nan", "infinity") as texts.
nlohmann::json number_to_wire(double number);

void from_wire(const nlohmann::json& wire, Descriptor& descriptor, TextPool& texts);
Evidence evidence_from_wire(const nlohmann::json& wire);
void from_wire(const nlohmann::json& wire, Findings& findings, TextPool& texts);
void from_wire(const nlohmann::json& wire, Situation& situation, TextPool& texts);
void from_wire(const nlohmann::json& wire, Expectation& expectation, TextPool& texts);
void from_wire(const nlohmann::json& wire, std::vector<Element>& elements, TextPool& texts);
void from_wire(const nlohmann::json& wire, std::vector<MeasuredRow>& rows, TextPool& texts);
void from_wire(const nlohmann::json& wire, Fitting& fitting, TextPool& texts);
void from_wire(const nlohmann::json& wire, ComparisonContext& context, TextPool& texts);
void from_wire(const nlohmann::json& wire, std::vector<EquivalenceFinding>& findings, TextPool& texts);
void from_wire(const nlohmann::json& wire, std::vector<Problem>& problems, TextPool& texts);
void from_wire(const nlohmann::json& wire, ValueNode& node, TextPool& texts);
double number_from_wire(const nlohmann::json& wire);

}  // namespace ohmwright
