#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "sim/part/links.hpp"
#include "sim/scene/injection.hpp"

namespace sixty {

/// What courses of faults depend on, at an instant.
class Outlook {
 public:
  virtual ~Outlook() = default;
  virtual SimTime now() const = 0;
  /// By the clock on the wall. Range: 0 .. kDay - 1.
  virtual SimTime time_of_day() const = 0;
  /// What the scene's parts take as their surroundings; nothing where there are none.
  virtual std::optional<Surroundings> air() const = 0;
  /// Largest current in an element of a part. Units: A.
  virtual double load_a(PartId part) const = 0;
  /// Uniform in [0, 1): number `number` of the chance of one fault in one part.
  virtual double draw(const Injection& put, std::uint64_t number) const = 0;
};

/// The faults that have been put in, and how much of each is in force. Plain values, copied with
/// the world.
class Faults {
 public:
  struct Put {
    std::shared_ptr<const Injection> what;
    SimTime since = 0;            ///< when it was put in, or set back by a hand
    SimTime changes_at = kNever;  ///< by itself
    double level = 0;             ///< share of its severity that is in force
    std::uint64_t draws = 0;
    std::int64_t knocks = 0;  ///< so far, when last looked
    double severity() const { return level * what->severity; }
  };
  bool empty() const { return put_.empty(); }
  const std::vector<Put>& all() const { return put_; }
  /// Puts one in; in place of the same fault in the same part, if it is there.
  void put(std::shared_ptr<const Injection> what, const Outlook& outlook);
  void clear(const Fault& fault, PartId part);
  /// What a command of a part does to its faults. Returns whether it did anything.
  bool tend(PartId part, std::size_t command, SimTime now);
  /// When one changes by itself; kNever if none does.
  SimTime next_change() const;
  /// Whether one changes with what happens elsewhere.
  bool watches() const;
  /// Brings all up to the present. Returns whether any is another now.
  bool follow(const Outlook& outlook);
  std::uint64_t state_hash() const;

 private:
  std::vector<Put> put_;
};

}  // namespace sixty
