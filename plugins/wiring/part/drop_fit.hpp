#pragma once

#include <ohmwright/component/fitting.hpp>

namespace ohmwright::wiring {

/// The ohms of a joint from volts across it at several currents: a straight line, its slope with its standard
/// uncertainty. From three rows on the zero of the meter is fitted too. A row without volts or without a current is
/// left out, and said so; rows that do not lie on a line are remarked: the joint changes as it warms, or comes and
/// goes.
Fitting fit_drop(const FitRequest& request);

}  // namespace ohmwright::wiring
