#pragma once

#include <map>

#include "sim/scene/draft.hpp"

namespace sixty {

/// The nets of a scene by the terminals in them, to be added to.
class NetBook {
 public:
  explicit NetBook(std::vector<DraftNet>& nets);
  /// Joins two terminals: in the net of one of them, or else in a new one with the name of `a`,
  /// which no net that a person has named can have. If they are in two nets already, one comes to
  /// be in both, which is for assign_nodes() to report.
  void join(const Written& a, const Written& b);

 private:
  void add(std::size_t net, const Written& terminal);
  std::vector<DraftNet>& nets_;
  std::map<std::string, std::size_t> net_of_;
};

}  // namespace sixty
