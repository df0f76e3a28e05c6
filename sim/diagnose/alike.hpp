#pragma once

#include <map>
#include <memory>
#include <tuple>
#include <vector>

#include "sim/diagnose/departure.hpp"
#include "sim/diagnose/suspect.hpp"
#include "sim/diagnose/watch.hpp"

namespace sixty::diagnose {

/// Suspects that are the same fault at the places of one line, in the order of the places: what a
/// run with the one shows, a run with another shows at other places.
using Kin = std::vector<std::size_t>;

/// What stands in the same way at the places of one line is alike: the same kinds of parts from the
/// same sheets, one after another. What lies before the faulty place stays before it, and what lies
/// behind stays behind.
class Alike {
 public:
  /// Order: installation, suspects and signs outlive it.
  Alike(const Installation& installation, const std::vector<Suspect>& suspects,
        const std::vector<SignAt>& signs, std::size_t spans);
  /// All suspects, each in one; those that are like none are by themselves.
  const std::vector<Kin>& kin() const { return kin_; }
  /// The number of the kin of each suspect.
  const std::vector<std::size_t>& kin_of() const { return kin_of_; }
  /// With which of the kin the run of that number is made: never the first or last place of a line,
  /// before or behind which there is nothing to be read.
  static std::size_t of_run(const Kin& kin, std::size_t number);
  /// Order: both are of one kin, `from` one that runs are made with. Range: nothing if they are
  /// one.
  std::shared_ptr<const Transposed> transposed(std::size_t from, std::size_t to);

 private:
  struct At {
    std::size_t line = 0, place = 0, slot = 0;
  };
  void find_places();
  bool is_uniform(const LaidLine& line) const;
  Transposed transpose(const At& from, const At& to) const;

  const Installation& installation_;
  const std::vector<Suspect>& suspects_;
  const std::vector<SignAt>& signs_;
  std::size_t spans_;
  std::map<PartId, At> at_;
  std::map<PartId, std::size_t> first_sign_;
  std::vector<Kin> kin_;
  std::vector<std::size_t> kin_of_;
  std::map<std::tuple<std::size_t, std::size_t, std::size_t>, std::shared_ptr<const Transposed>>
      known_;
};

}  // namespace sixty::diagnose
