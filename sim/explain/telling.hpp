#pragma once

#include <string>
#include <string_view>

#include "sim/explain/loss.hpp"
#include "sim/explain/records.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::explain {

/// What a condition of an event is about, in the spoken language.
std::string spoken_condition(const std::string& what);

/// The sentences of links, in the spoken language.
class Telling {
 public:
  /// Order: the scene outlives it.
  explicit Telling(const Installation& scene) : scene_(scene) {}

  /// Where what is told is that it was in vain, `acted` is false.
  std::string did_not(PartId part, SimTime at, std::string_view kind, bool acted) const;
  std::string did(PartId part, SimTime at, std::string_view kind, bool acted) const;
  /// It ended, or did not, where it goes on when sound, or does not.
  std::string ended(PartId part, SimTime at, std::string_view kind) const;
  std::string went_on(PartId part, SimTime at, std::string_view kind) const;
  std::string needed(PartId part, const Kept::Needed& condition) const;
  std::string had_to_be_closed(PartId contact, SimTime at, PartId for_part) const;
  /// `open`: and closed when sound; else the other way round.
  std::string stood(PartId contact, SimTime at, bool open, PartId what_hangs_on_it) const;
  std::string got_volts(PartId part, double ours_v, double sound_v) const;
  std::string needs_volts(PartId part, double ours_v, double sound_v) const;
  std::string lost(const Loss& loss) const;

 private:
  const std::string& name(PartId part) const { return scene_.parts[part].name; }
  std::string meaning(PartId part, std::string_view kind) const;

  const Installation& scene_;
};

}  // namespace sixty::explain
