#pragma once

#include <vector>

#include "sim/circuit/armature.hpp"
#include "sim/circuit/step.hpp"

namespace sixty::circuit {

/// What a coil is fed with during a step of the whole network: the voltage it would see without its
/// own current, at the step's start, middle and end, behind its own source resistance.
struct Feed {
  double start_v = 0, middle_v = 0, end_v = 0;
  double self_ohm = 0;
  double h = 0;
  double volts(double dt) const;
};

/// One coil's way through a step of the whole network in which it meets stops, wakes or turns.
/// The others have gone on as if nothing had happened to it, which errs by no more than what its
/// changed current makes on their voltages within one step; in return a line of N coils costs N
/// and not N^2, since no coil's event makes the others step again.
struct LoneWay {
  struct Deed {
    double dt = 0;
    Hit hit;
    CoilState before;  ///< just before
    CoilState after;   ///< just after
    double volts = 0;
    double lost_j = 0;  ///< at a stop
    Turn turn = Turn::kBack;
  };
  std::vector<Deed> deeds;
  CoilState end;
  Feed feed;
  double contact_dt = -1;  ///< it works a contact there: the whole step must end there
  std::size_t contact_mark = 0;
};

/// Errors: none; substeps are limited.
LoneWay go_alone(const Stepper& stepper, const Network& network, std::size_t coil,
                 const CoilState& from, const Feed& feed);

/// The coil at a time within the step that it went through alone.
CoilState state_on_way(const Stepper& stepper, const Network& network, std::size_t coil,
                       const CoilState& from, const LoneWay& way, double dt);

}  // namespace sixty::circuit
