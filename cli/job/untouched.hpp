#pragma once

#include <string>
#include <vector>

#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A part of the appliance that was named as being at fault.
struct NamedPart {
  std::string id;
  std::string title;
  bool may_open_for_good = false;  ///< a rule of its kind condemns what opens once and for good
};

/// The parts that fault finding named at any time of the call, by what was read until the next part was replaced or
/// mended, and to which nothing was done since; each once. One that was read good by itself afterwards is none of them.
/// None where the call has no appliance. Throws as the words of `locate` do.
std::vector<NamedPart> named_and_untouched(const job::ServiceCall& call, const Arguments& arguments,
                                           const Environment& environment);

/// Whether what was read at test points since the last repair speaks against all being in order, twenty to one, be it
/// clear which part is at fault or not.
bool speaks_of_a_fault_since_repair(const job::ServiceCall& call, const Arguments& arguments,
                                    const Environment& environment);

/// Where the part was named through the circuit: TESTPOINT[@SETUP] of no part alone at which what was read without
/// supply, last and since the last work on it, makes it likelier by itself that the part is at fault. Empty: nowhere.
std::string place_that_spoke_against(const job::ServiceCall& call, const std::string& part, const Arguments& arguments,
                                     const Environment& environment);

/// Whether a reading at a test point, by itself, is what an appliance in order would show there.
bool reads_as_it_should(const job::ServiceCall& call, const job::MeasuredValue& reading, const Arguments& arguments,
                        const Environment& environment);

}  // namespace ohmwright::cli
