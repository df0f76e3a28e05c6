#include "sim/explain/loss.hpp"

#include "sim/explain/way.hpp"

namespace sixty::explain {
namespace {

/// Volts across a piece of a way; 0 where a build lacks it.
double volts_of(const Session& session, const Piece& piece) {
  std::size_t element = 0;
  return find_piece(session, piece, element) ? volts_across(session, piece.kind, element) : 0;
}

}  // namespace

std::optional<Loss> greatest_loss(const Session& looked_at, const Session& sound,
                                  std::size_t coil) {
  std::vector<Piece> way = way_of(looked_at, coil);
  if (way.empty()) way = way_of(sound, coil);
  std::optional<Loss> greatest;
  for (const Piece& piece : way) {
    Loss loss;
    loss.part = static_cast<PartId>(piece.part);
    loss.source = piece.kind == Piece::Kind::kSource;
    loss.ours_v = volts_of(looked_at, piece);
    loss.sound_v = volts_of(sound, piece);
    loss.more_v = loss.source ? loss.sound_v - loss.ours_v : loss.ours_v - loss.sound_v;
    if (loss.more_v > (greatest ? greatest->more_v : 0)) greatest = loss;
  }
  return greatest;
}

}  // namespace sixty::explain
