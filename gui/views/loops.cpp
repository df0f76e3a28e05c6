#include "gui/views/loops.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using circuit::Node;
using Where = Stand::Where;

constexpr const char* kNumberless = "line";  // kind of one whose parts bear no number

/// Nodes that are one as long as one does not go through the case.
class Joined {
 public:
  Node find(Node n) {
    while (above_.count(n) != 0) n = above_[n];
    return n;
  }
  void join(Node a, Node b) {
    a = find(a);
    b = find(b);
    if (a != b) above_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::map<Node, Node> above_;
};

struct Edge {
  PartId part = 0;
  Node a = 0, b = 0;
  bool in_room = false;
};

std::vector<Edge> edges_of(const Installation& installation) {
  std::vector<Edge> edges;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    const PartInstance& part = installation.parts[p];
    const Declaration& declared = part.kind->declaration;
    if (stands_in_case(part) || declared.terminals.size() < 2) continue;
    const auto a = part.nodes.find(declared.terminals[0].name);
    const auto b = part.nodes.find(declared.terminals[1].name);
    if (a == part.nodes.end() || b == part.nodes.end()) continue;
    edges.push_back({p, a->second, b->second, stands_in_room(part)});
  }
  return edges;
}

std::set<Node> nodes_of_case(const Installation& installation) {
  std::set<Node> nodes;
  for (const PartInstance& part : installation.parts) {
    if (!stands_in_case(part)) continue;
    for (const auto& [name, node] : part.nodes) nodes.insert(node);
  }
  return nodes;
}

/// One way through all: nowhere outside the case do more than two ends meet.
bool is_chain(const std::vector<Edge>& edges, const std::set<Node>& home) {
  std::map<Node, int> ends;
  int in_rooms = 0;
  for (const Edge& e : edges) {
    for (const Node n : {e.a, e.b}) {
      if (home.count(n) == 0 && ++ends[n] > 2) return false;
    }
    in_rooms += e.in_room ? 1 : 0;
  }
  return in_rooms > 1;
}

std::vector<Loop::End> ends_of(const Installation& installation, const std::vector<Edge>& edges,
                               const std::set<Node>& home) {
  std::vector<Loop::End> ends;
  for (const Edge& e : edges) {
    const auto& terminals = installation.parts[e.part].kind->declaration.terminals;
    if (home.count(e.a) != 0) ends.push_back({e.part, terminals[0].name});
    if (home.count(e.b) != 0) ends.push_back({e.part, terminals[1].name});
  }
  return ends;
}

/// What the part says that it belongs to: a name, or a number with the name of that parameter.
void name_loop(const PartInstance& part, Loop& loop) {
  const std::string& group = part.kind->declaration.stand.group;
  const auto value = part.values.find(group);
  if (value == part.values.end()) return;
  const auto& params = part.kind->declaration.params;
  const auto declared = std::find_if(params.begin(), params.end(),
                                     [&](const ParamDecl& param) { return param.name == group; });
  loop.numbered = declared != params.end() && declared->kind == ParamKind::kCount;
  if (loop.numbered) {
    loop.number = static_cast<int>(value->second.number);
    loop.kind = words_of_key(group);
    loop.name = fmt::format("{} {}", loop.kind, loop.number);
  } else {
    loop.name = value->second.text;
  }
}

}  // namespace

bool stands_in_room(const PartInstance& part) {
  return part.kind->declaration.stand.where == Where::kRoom;
}

bool stands_in_case(const PartInstance& part) {
  const Where where = part.kind->declaration.stand.where;
  return where != Where::kNowhere && where != Where::kRoom;
}

std::vector<Loop> find_loops(const Installation& installation) {
  const std::vector<Edge> edges = edges_of(installation);
  const std::set<Node> home = nodes_of_case(installation);
  Joined joined;
  for (const Edge& e : edges) {
    if (home.count(e.a) == 0 && home.count(e.b) == 0) joined.join(e.a, e.b);
  }
  // What lies between two places in the case belongs to the place that feeds it.
  std::map<Node, std::vector<Edge>> together;
  for (const Edge& e : edges) {
    const Node outside = home.count(e.a) == 0 ? e.a : home.count(e.b) == 0 ? e.b : e.a;
    together[joined.find(outside)].push_back(e);
  }
  std::vector<Loop> loops;
  for (const auto& [node, own] : together) {
    Loop loop;
    for (const Edge& e : own) {
      if (e.in_room) loop.parts.push_back(e.part);
    }
    if (loop.parts.empty()) continue;
    loop.ends = ends_of(installation, own, home);
    loop.series = is_chain(own, home);
    name_loop(installation.parts[loop.parts.front()], loop);
    loops.push_back(std::move(loop));
  }
  std::sort(loops.begin(), loops.end(), [](const Loop& a, const Loop& b) {
    return std::tuple(a.numbered, a.numbered ? a.number : 0, a.parts.front()) <
           std::tuple(b.numbered, b.numbered ? b.number : 0, b.parts.front());
  });
  int next = 1;
  for (Loop& loop : loops) {
    if (!loop.numbered) loop.number = next++;
    if (!loop.name.empty()) continue;
    loop.kind = kNumberless;
    loop.name = fmt::format("{} {}", loop.kind, loop.number);
  }
  return loops;
}

std::string words_of(const Loop& loop) {
  if (loop.kind == kNumberless) return say("line {}", loop.number);
  if (loop.kind == "zone") return say("zone {}", loop.number);
  return loop.name;
}

}  // namespace sixty::gui
