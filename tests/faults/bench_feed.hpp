#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"
#include "sim/scene/hookup.hpp"

namespace sixty {

/// The terminal of a part that has a node; empty if none has.
std::string terminal_at(const PartInstance& part, circuit::Node node);
/// Lays a hookup on.
Action lay(const Hookup& hookup, SimTime at);

/// A supply on the bench with a key, its leads clipped to two terminals.
struct BenchFeed {
  Terminal plus, minus;
  double emf_v = 0;
};

/// What gives a coil, or what hangs on a source, the volts that it has in that run at that moment.
/// Nothing where no terminal leads to it.
std::optional<BenchFeed> feed_like(Session& sound, PartId part, SimTime at);

/// A scene's text with such a supply beside the installation; nothing is clipped to it yet.
std::string with_bench_supply(std::string scene_text);
/// Its volts, as "part.value=QUANTITY".
std::string bench_volts(const BenchFeed& feed);
/// Clips its leads on, in that scene.
std::vector<Action> leads_of(const BenchFeed& feed, const Installation& scene, SimTime at);
/// Presses its key: "TIME part.command QUANTITY".
std::string key_press(SimTime from, SimTime lasts);

}  // namespace sixty
