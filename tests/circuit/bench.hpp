#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "sim/circuit/integrator.hpp"

namespace sixty::circuit {

void add_to(Ledger& total, const Ledger& part);

/// Where the energy of a network is, and where it went. Units: J.
struct Energies {
  double source = 0, heat = 0, field = 0, spring = 0, kinetic = 0, impact = 0, friction = 0;
  double capacitors = 0;  ///< stored now
  /// source - all the rest, `start` being what was stored at the beginning.
  double missing(const Energies& start) const;
};

/// A network with named elements, and contacts worked at given instants. Looks at any instant.
class Bench {
 public:
  Node node(const std::string& name);
  void source(const std::string& name, const std::string& plus, const std::string& minus,
              double emf_v, double resistance_ohm);
  void resistor(const std::string& a, const std::string& b, double ohm);
  void capacitor(const std::string& name, const std::string& a, const std::string& b, double farad,
                 double ohm);
  void diode(const std::string& anode, const std::string& cathode, double ohm, double forward_v);
  int contact(const std::string& name, const std::string& a, const std::string& b, double ohm,
              ContactKind kind = {});
  void coil(const std::string& name, const std::string& a, const std::string& b, Coil coil);
  /// A name for the voltage between two nodes.
  void meter(const std::string& name, const std::string& a, const std::string& b);
  /// Order: by time, after all elements.
  void work(double at_s, const std::string& contact, bool closed);

  struct Look {
    State state;
    std::vector<double> node_v;
    Ledger ledger;
  };
  /// At a working instant: just after it, or just before.
  Look at(double t_s, bool before = false);
  double value(const Look& look, const std::string& signal) const;
  Energies energies(const Look& look) const;

  struct Happened {
    double at_s = 0;
    std::string coil;
    Located located;
  };
  /// What happened up to a time, in order.
  std::vector<Happened> events(double until_s);

  const Network& network() const { return network_; }

 private:
  struct Segment {
    double from_s = 0;
    Inputs inputs;
    State start;
    Ledger before;
  };
  void prepare();
  /// Segment that holds a time, prepared.
  const Segment& segment_of(double t_s, bool before);

  Network network_;
  std::map<std::string, Node> nodes_;
  std::map<std::string, std::function<double(const Look&)>> signals_;
  std::map<std::string, std::size_t> contacts_;
  std::vector<std::string> coil_names_;
  struct Work {
    double at_s;
    std::size_t contact;
    bool closed;
  };
  std::vector<Work> works_;
  std::vector<Segment> segments_;
  const Segment* current_ = nullptr;
  double looked_s_ = 0;
  std::unique_ptr<Integrator> run_;
};

}  // namespace sixty::circuit
