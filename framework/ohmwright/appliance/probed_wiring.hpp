#pragma once

#include <optional>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/appliance/conduction.hpp>
#include <ohmwright/appliance/wiring_graph.hpp>

namespace ohmwright {

/// The appliance's wiring after one set-up (or as found), as an ohmmeter or the supply drives it, and what its test
/// points see of it. Connections alone. Between source files of this area.
class ProbedWiring {
 public:
  /// `appliance` must outlive this.
  ProbedWiring(const Appliance& appliance, std::optional<std::size_t> set_up, Excitation excitation);

  /// Whether the supply's live or neutral reaches the node through parts that may conduct, with every lead on.
  bool reaches_supply(std::size_t node) const;

  /// Whether anything, be it a fault, can make this test point read something else than "nothing there".
  bool can_read_something(std::size_t test_point) const;

  /// Whether the part can have that fault.
  bool can_be(const PartFault& fault) const { return faulty(fault).can_be; }

  /// Whether some test point shows it, the other parts being healthy.
  bool shows(const PartFault& fault) const;

 private:
  /// How the supply stands in a graph. Joined, it carries current round; made one point, it holds its volts whatever
  /// hangs on it, so that a part beside it changes nothing elsewhere.
  enum class SupplyAs : std::uint8_t { edge, point };

  struct Wired {
    explicit Wired(std::size_t points) : graph(points) {}

    WiringGraph graph;
    std::vector<std::vector<std::optional<std::size_t>>> leads;  ///< by part and terminal: the edge to the wiring
    std::optional<std::size_t> supply;                           ///< its edge
  };

  const Conduction& faulty(const PartFault& fault) const { return faulty_[fault.part][fault.fault]; }
  std::size_t point(std::size_t part, std::uint16_t of_part) const { return first_point_[part] + of_part; }
  std::size_t node_point(std::size_t node, SupplyAs supply) const;
  std::size_t place(const ProbePlace& place, SupplyAs supply) const;
  bool is_read_here(const TestPoint& point) const;
  bool is_lifted(const TestPoint& at, std::size_t part, std::size_t terminal) const;
  Wired wired(const TestPoint& at, SupplyAs supply) const;
  std::vector<bool> seen(const Wired& wired, const TestPoint& at, SupplyAs supply) const;
  bool is_driven(const Wired& with_edge, const TestPoint& at) const;

  const Appliance& appliance_;
  Excitation excitation_;
  std::vector<Conduction> healthy_;              ///< by part
  std::vector<std::vector<Conduction>> faulty_;  ///< by part and fault mode
  std::vector<std::size_t> first_point_;         ///< by part
  std::size_t points_ = 0;
};

}  // namespace ohmwright
