#pragma once

#include <cstddef>
#include <map>
#include <vector>

namespace sixty::diagnose {

/// Those of a few suspects that are still possible, in their order.
using Left = std::vector<std::size_t>;

/// A check, and which of its outcomes each suspect leads to.
struct Splitting {
  double cost_min = 0;
  std::vector<std::size_t> outcome;
};

/// What is left after each outcome that some of them lead to.
std::vector<Left> split(const Left& left, const std::vector<std::size_t>& outcome);
Left without(const Left& left, std::size_t place);

/// Expected costs of finding out which of a few suspects it is, beside mending that one: checks,
/// which never err, and work at wrong places, each of which is known for one afterwards. Units:
/// min.
class CureSearch {
 public:
  /// Range: beliefs above 0, the largest first; they need not add up to 1.
  CureSearch(std::vector<double> beliefs, std::vector<Splitting> splittings);

  Left everybody() const;
  std::size_t checks() const { return splittings_.size(); }
  /// Of a part of those left.
  double share(const Left& part, const Left& left) const;
  /// The least that any order of checks and work comes to, by dynamic programming over all that may
  /// be left. Source: R. Bellman, Dynamic Programming (1957).
  double least_min(const Left& left);
  /// All checks in an order, from the `next` on, until one is left; if there are more then, they
  /// are worked at, the likeliest first.
  double in_order_min(const Left& left, const std::vector<std::size_t>& order,
                      std::size_t next) const;
  /// The first of those left is worked at, then as `rest_min` of the rest says.
  double at_first_min(const Left& left, double rest_min) const;

 private:
  double weight(const Left& left) const;

  std::vector<double> beliefs_;
  std::vector<Splitting> splittings_;
  std::map<Left, double> least_;
};

}  // namespace sixty::diagnose
