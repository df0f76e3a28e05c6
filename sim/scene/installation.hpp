#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/clock_time.hpp"
#include "sim/part/registry.hpp"

namespace sixty {

/// A room on the plan of the building: the rectangle from (x, y), or a point.
struct Room {
  std::string name;
  int floor = 0;  ///< 0 is the ground floor
  double x_m = 0, y_m = 0, width_m = 0, height_m = 0;
};

/// One part of an installation, built.
struct PartInstance {
  std::string name;
  std::string room;   ///< where it stands, may be empty
  std::string notes;  ///< what the scene tells of it in its own words, may be empty
  const Registry::Entry* kind = nullptr;
  std::string sheet;                    ///< data sheet it was taken from, may be empty
  std::map<std::string, Value> values;  ///< every declared parameter, as drawn
  std::unique_ptr<const Part> part;
  std::uint64_t path_hash = 0;  ///< key of its chance
  /// Per output: (part, number of its input) of everything that listens.
  std::vector<std::vector<std::pair<PartId, std::size_t>>> listeners;
  /// Per offered link: (part, number of its taken link) of every taker.
  std::vector<std::vector<std::pair<PartId, std::size_t>>> takers;
  std::vector<std::size_t> offered_offset;     ///< in the state, per offered link
  std::vector<std::vector<Rider>> riders;      ///< per offered link
  std::map<std::string, circuit::Node> nodes;  ///< per terminal
  /// Elements of the network that it owns.
  std::vector<int> coils, contacts, sources, resistors;
};

struct Blueprint;
struct Injection;
struct Hookup;

/// Where a meter has been laid on: what it reads is the voltage from `a` to `b`, or the current
/// through its resistor that way: in series, into the part.
struct Tapped {
  std::shared_ptr<const Hookup> hookup;
  circuit::Node a = 0, b = 0;
};

/// A hand's action written in a scene or on the command line; a fault that is put in, changed or
/// cleared; or a meter that is laid on or taken off.
struct Action {
  SimTime at = 0;
  PartId part = 0;
  std::size_t command = 0;  ///< of a hand
  double value = 0;
  std::shared_ptr<const Injection> fault = nullptr;  ///< none: a hand's
  std::shared_ptr<const Hookup> hookup = nullptr;    ///< a meter's
  bool clears = false;                               ///< the fault, or the meter, goes
  std::string text;                                  ///< as written, for traces and reports
  bool added = false;  ///< by the command line; the scene itself has none such
  bool operator==(const Action&) const = default;
};

/// A line or loop that was laid from place to place.
struct LaidLine {
  std::string name;
  /// Of each place, in the order in which the line comes to them: what leads there, and what hangs
  /// there if something does.
  std::vector<std::vector<PartId>> places;
  bool branches = false;  ///< or some place leads on to several others
};

/// One of the readings of one of the parts.
struct ReadingOf {
  PartId part = 0;
  std::size_t reading = 0;
  bool operator==(const ReadingOf&) const = default;
};

/// A checked scene, ready to run any number of times: constant.
struct Installation {
  std::string name;  ///< of the scene: the file's name without folder and ending
  std::string title;
  CivilClock clock;         ///< what clocks on the wall say from the scene's start on
  SimTime week_offset = 0;  ///< of the start, since Monday 00:00
  SimTime year_offset = 0;  ///< of the start, since 1 January 00:00
  std::uint64_t seed = 1;
  Assumptions assumptions;  ///< that it is built under
  std::vector<Room> rooms;
  std::vector<PartInstance> parts;
  std::vector<LaidLine> lines;
  std::map<std::string, circuit::Node> nets;
  std::shared_ptr<const circuit::Network> network;
  std::vector<Tapped> tapped;  ///< by meters; the network's first resistors, in their order
  std::size_t state_bytes = 0;
  std::vector<Action> script;                  ///< in order of time, then as written
  std::vector<SheetText> circumstances;        ///< what may be known of it beforehand, as text
  std::shared_ptr<const Blueprint> blueprint;  ///< what it was built from

  const PartInstance* find(const std::string& part_name) const;
  std::optional<PartId> find_id(const std::string& part_name) const;
  /// The first link of that kind that a part offers: the part, and the number of its offered link.
  std::optional<std::pair<PartId, std::size_t>> find_offer(std::string_view kind) const;
  const NamedDecl& declaration(const ReadingOf& of) const {
    return parts[of.part].kind->declaration.readings[of.reading];
  }
};

}  // namespace sixty
