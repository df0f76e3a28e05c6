#pragma once

#include <string>
#include <vector>

namespace sixty::reference {

/// One transient of a circuit, as ngspice computed it. Times may repeat and are never falling.
struct Waveform {
  std::vector<double> time_s, value;
  /// Straight between two computed instants; the last one outside.
  double at(double t_s) const;
  double largest() const;
};

/// Hands a circuit to ngspice (its shared library) and lets it run the `.tran` in it.
/// `netlist`: lines without title and `.end`. Gives the wanted vectors ("v(out)", "i(vhead)").
/// Errors: std::runtime_error with what ngspice said.
std::vector<Waveform> run_ngspice(const std::vector<std::string>& netlist,
                                  const std::vector<std::string>& wanted);

}  // namespace sixty::reference
