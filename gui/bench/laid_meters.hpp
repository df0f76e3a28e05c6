#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/strip/lanes.hpp"
#include "gui/views/ghost.hpp"
#include "sim/instruments/order.hpp"

namespace sixty::gui {

/// A place with what is laid on there.
struct LaidOn {
  std::string letter;  ///< "A", "B" ..., as written on its tips
  instruments::Order order;
  std::optional<instruments::Order> needle;  ///< beside what is fast
  std::optional<instruments::Order> record;  ///< the same, as a recorder's channel
  std::optional<LaneOf> channel;             ///< its lane, while it is recorded
};

/// The instruments that are laid on: of volts and amperes a fast one, a needle and a channel of the
/// recorder each, at two places; and others.
class LaidMeters {
 public:
  static constexpr std::size_t kMost = 3, kMostElectrical = 2;

  /// Lays one on, as instruments::read_order() takes it; those laid on longest make room. Errors:
  /// what is wrong with it; empty: nothing.
  std::string add(const Installation& installation, const std::string& text);
  void take_off(std::size_t place);
  void take_off_all() { all_.clear(); }
  /// Whether a place has a lane. Range: it can be recorded.
  void record(const Installation& installation, std::size_t place, bool on);

  const std::vector<LaidOn>& all() const { return all_; }
  /// All that is to be read, place by place.
  std::vector<instruments::Order> orders() const;
  std::vector<LaneOf> channels() const;
  std::vector<MeterTip> tips() const;

 private:
  void make_room(bool electrical);
  std::string free_letter() const;
  std::vector<LaidOn> all_;
};

/// What lies between its tips and what is measured there: the part, one part "to" another
/// where they lie on two, and "volts" or the like behind it.
std::string words_of(const Installation& installation, const instruments::Order& order);

}  // namespace sixty::gui
