#pragma once

#include <string>

#include <ohmwright/course/key.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::course::testing {

/// How a student works.
enum class Manner {
  careful,     ///< makes it safe, lifts leads, measures until one answer is left, cites what they read
  hasty,       ///< unplugs, proves nothing, reads three points with the leads in, and is sure
  guessing,    ///< measures nothing
  scattering,  ///< measures nothing, names as many parts as the bench lets them, and claims as little as it lets them
  unsafe,      ///< an ohmmeter on a live circuit, then a guess
  editing,     ///< works like the careful one, then changes a reading in the file
};

/// The record that such a student hands in.
std::string record_of(Manner manner, const MadeExercise& made, const Bench& bench, Reasoning& reasoning,
                      ReproducibleStream& stream);

}  // namespace ohmwright::course::testing
