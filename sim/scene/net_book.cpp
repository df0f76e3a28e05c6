#include "sim/scene/net_book.hpp"

namespace sixty {

NetBook::NetBook(std::vector<DraftNet>& nets) : nets_(nets) {
  for (std::size_t i = 0; i < nets.size(); ++i)
    for (const Written& terminal : nets[i].terminals) net_of_.emplace(terminal.text, i);
}

void NetBook::join(const Written& a, const Written& b) {
  const auto of_a = net_of_.find(a.text);
  const auto of_b = net_of_.find(b.text);
  if (of_a != net_of_.end() && of_b != net_of_.end()) {
    if (of_a->second != of_b->second) nets_[of_a->second].terminals.push_back(b);
  } else if (of_a != net_of_.end()) {
    add(of_a->second, b);
  } else if (of_b != net_of_.end()) {
    add(of_b->second, a);
  } else {
    nets_.push_back({a.text, a.place, {}});
    add(nets_.size() - 1, a);
    add(nets_.size() - 1, b);
  }
}

void NetBook::add(std::size_t net, const Written& terminal) {
  nets_[net].terminals.push_back(terminal);
  net_of_.emplace(terminal.text, net);
}

}  // namespace sixty
