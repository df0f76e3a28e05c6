#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/circuit/state.hpp"
#include "sim/scene/installation.hpp"

namespace sixty {

/// Which contacts stand between a source and a coil: what had to be closed for the coil to act, and
/// which one was not. Found from the wiring alone: the way from a source through the coil and back
/// that has the fewest open contacts. Ways through other coils, and through resistors that merely
/// lie across a coil or are a meter laid on, do not count.
class FeedPaths {
 public:
  explicit FeedPaths(const Installation& installation);

  /// Conditions of a coil in a state, in order from the source: one for each contact of its way
  /// (needed 1, measured 1 if it conducts). `through`: the way must use this contact, -1 for any.
  /// Empty when there is no way.
  std::vector<Condition> conditions(std::size_t coil, const circuit::State& state,
                                    int through = -1) const;
  /// Coils with an armature that a contact can take part in feeding.
  const std::vector<std::size_t>& coils_behind(std::size_t contact) const {
    return coils_behind_[contact];
  }

 private:
  struct Edge {
    std::size_t to = 0;
    int contact = -1;
  };
  struct Reach {
    std::vector<int> open;          ///< least open contacts from the start, -1: not reached
    std::vector<std::size_t> from;  ///< node before
    std::vector<int> contact;       ///< contact passed on the last edge
  };
  /// The way on from a contact that was come to from a source's end; it meets neither the way there
  /// nor the source's other end again, as no current runs round like that.
  struct Beyond {
    Reach from_a;  ///< where the contact is entered at b
    Reach from_b;
  };
  /// Least-open ways from a source's two ends, and on from a contact; that contact is left out.
  struct Ways {
    Reach plus, minus;
    Beyond after_plus, after_minus;
    int through = -1;
  };
  struct Best {
    int open = -1;  ///< contacts open on the way; -1: no way
    std::vector<int> contacts;
  };
  void name_contacts(const Installation& installation);
  std::vector<std::size_t> coils_fed_through(int contact) const;
  void add_edge(circuit::Node a, circuit::Node b, int contact);
  /// `shut`: nodes that no way may meet, empty for none.
  Reach reach(std::size_t start, const circuit::State& state, int without,
              const std::vector<std::uint8_t>& shut) const;
  Beyond beyond(const Reach& there, std::size_t other_end, const circuit::State& state,
                int through) const;
  Ways ways(const circuit::Source& source, const circuit::State& state, int through) const;
  Best best_way(const Ways& ways, const circuit::Coil& coil, const circuit::State& state) const;
  static void trace_back(const Reach& reach, std::size_t node, std::vector<int>& contacts);

  const circuit::Network& network_;
  std::vector<std::vector<Edge>> edges_;
  std::vector<std::string> contact_labels_;
  std::vector<std::vector<std::size_t>> coils_behind_;
};

}  // namespace sixty
