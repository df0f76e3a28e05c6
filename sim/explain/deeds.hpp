#pragma once

#include <string_view>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::explain {

constexpr SimTime kSame = 400 * kMillisecond;  ///< deeds less apart are one: less than a beat

/// Something that a part did, or failed to do: several of a kind that follow each other closer than
/// a person tells apart are one.
struct Deed {
  SimTime at = 0, last = 0;
  PartId part = 0;
  std::uint16_t event_kind = 0;
  std::string_view kind;
  bool acted = true;
  bool by_hand = false;
  double value = 0;
};

/// Whether a record is a deed: an armature starts, arrives, returns or is held, a wire melts, a
/// rider's place comes, a signal arrives, a hand acts, or something fails. What contacts do in
/// bouncing, sparks, and what parts do for themselves, is none.
bool is_deed(const TraceRecord& record);

/// Keeps the deeds of a run.
class DeedWatch final : public TraceSink {
 public:
  void record(const TraceRecord& record) override;
  bool full() const override { return false; }
  /// Takes those out that are over by `until`: nothing more can come to them.
  std::vector<Deed> take(SimTime until);

 private:
  std::vector<Deed> deeds_;
};

/// All of a span, its ends among them, in order of their beginning. The session stands where it
/// stood. Range: from >= 0.
std::vector<Deed> deeds_in(Session& session, SimTime from, SimTime to);

}  // namespace sixty::explain
