#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/locate/site.hpp>

namespace ohmwright::locate {

/// One way an element of a part may be: a value with what is left of its spread, or open.
struct ElementChoice {
  double weight = 1.0;  ///< probability of this choice [0…1]
  ElementType type = ElementType::open;
  double value_in_si = 0.0;
  double relative_uncertainty = 0.0;  ///< standard, of the value
  /// How much of that is the doubt about the temperature, new at another temperature, rather than what the part is
  /// [0…1]: of its variance the square.
  double share_of_temperature = 0.0;
  /// Standard uncertainty of the value, relative, by where a wire is cut in two: what one piece has more the other has
  /// less, and it is negative there. Beside `relative_uncertainty`, which both share.
  double of_cut = 0.0;
  bool is_anew =
      false;  ///< another value within its uncertainty at every reading: readings have no error of it in common
};

/// An element with its choices, the likeliest first.
struct ElementSpread {
  std::uint16_t from = 0;  ///< as `Element::from`
  std::uint16_t to = 0;
  /// Whether the choices are what a contact does from reading to reading; else they are what the part is, once for all.
  bool is_contact = false;
  /// Whether the choices hang on a temperature that nobody measured: then even a contact is in one state in all
  /// readings at that temperature.
  bool stays = false;
  /// Whether it is the second piece of a wire whose first piece is the element before it: the choices of both go
  /// together.
  bool is_other_piece = false;
  std::vector<ElementChoice> choices;
  /// The middle of all choices with the spread over all of them: what it is where nobody settles which of them it is.
  /// Of a contact the likeliest choice.
  ElementChoice whole = {};
};

/// The elements of a part, healthy (`not_found`) or with a fault, at a site whose temperature is in doubt.
///
/// Asked at the middle and at both ends of the temperature, and all along the way of a zone that may have warmed up: a
/// resistance takes in all of these, a contact is closed with the weighted share. What spreads over more than a factor
/// is cut into choices of equal probability on a logarithmic scale. A wire that a leak cuts in two stays as long as a
/// good part's (`cut_wire`). A contact that comes and goes may show some ohms while it is bad (`loose_contact`). A part
/// that cannot say what it is has anything from an ohm to a megohm between its first two terminals.
std::vector<ElementSpread> part_model(const Appliance& appliance, std::size_t part, std::uint16_t fault,
                                      const Site& site, Excitation excitation);

}  // namespace ohmwright::locate
