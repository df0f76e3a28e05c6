#pragma once

#include <map>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::explain {

/// An element that a coil's current goes through on its way from a source and back.
struct Piece {
  enum class Kind : std::uint8_t { kSource, kResistor, kContact, kDiode, kCoil };
  Kind kind = Kind::kSource;
  std::size_t part = 0;   ///< whose it is
  std::size_t place = 0;  ///< among the elements of that kind that the part has
  std::size_t element = 0;
};

/// The way with the least resistance from a source through a coil and back, through what conducts
/// now; through other coils only where there is no other. Empty where there is none.
std::vector<Piece> way_of(const Session& session, std::size_t coil);
/// The same piece in another build of the same installation; false if that has none.
bool find_piece(const Session& session, const Piece& piece, std::size_t& element);
/// Whether a contact conducts now.
bool conducts(const Session& session, std::size_t contact);
/// Volts across it now: of a source those at its terminals.
double volts_across(const Session& session, Piece::Kind kind, std::size_t element);
/// What goes now into a part of the session's build at each of its nodes. Units: A. Range: no
/// source, capacitor or diode is counted.
std::map<circuit::Node, double> currents_into(const Session& session, const PartInstance& part);
/// What goes now into a part of the session's build, at the terminal where it is most. Units: A.
/// Range: no source, capacitor or diode.
double drawn_a(const Session& session, const PartInstance& part);

}  // namespace sixty::explain
