#include "tests/reference/ngspice.hpp"

#include <ngspice/sharedspice.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace sixty::reference {
namespace {

/// What ngspice has printed since it was last given a circuit.
std::string& said() {
  static std::string text;
  return text;
}

int hear(char* line, int, void*) {
  said() += std::string(line) + "\n";
  return 0;
}

int leave(int, NG_BOOL, NG_BOOL, int, void*) {
  throw std::runtime_error("ngspice gave up:\n" + said());
}

void start_once() {
  static const bool started =
      ngSpice_Init(hear, nullptr, leave, nullptr, nullptr, nullptr, nullptr) == 0;
  if (!started) throw std::runtime_error("ngspice does not start");
}

void command(std::string line) {
  if (ngSpice_Command(line.data()) != 0) throw std::runtime_error(line + ":\n" + said());
}

std::vector<double> vector_named(std::string name) {
  const pvector_info found = ngGet_Vec_Info(name.data());
  if (found == nullptr || found->v_realdata == nullptr || found->v_length < 2) {
    throw std::runtime_error("ngspice has no " + name + ":\n" + said());
  }
  return {found->v_realdata, found->v_realdata + found->v_length};
}

}  // namespace

double Waveform::at(double t_s) const {
  const auto after = std::lower_bound(time_s.begin(), time_s.end(), t_s);
  if (after == time_s.begin()) return value.front();
  if (after == time_s.end()) return value.back();
  const auto k = static_cast<std::size_t>(after - time_s.begin());
  const double share = (t_s - time_s[k - 1]) / (time_s[k] - time_s[k - 1]);
  return value[k - 1] + share * (value[k] - value[k - 1]);
}

double Waveform::largest() const {
  double most = 0;
  for (const double v : value) most = std::max(most, std::fabs(v));
  return most;
}

std::vector<Waveform> run_ngspice(const std::vector<std::string>& netlist,
                                  const std::vector<std::string>& wanted) {
  start_once();
  said().clear();
  std::vector<std::string> lines = netlist;
  lines.insert(lines.begin(), "one comparison");
  lines.emplace_back(".options reltol=1e-6 abstol=1e-12 vntol=1e-9 method=gear");
  lines.emplace_back(".end");
  std::vector<char*> pointers;
  for (std::string& line : lines) pointers.push_back(line.data());
  pointers.push_back(nullptr);
  if (ngSpice_Circ(pointers.data()) != 0) throw std::runtime_error("netlist:\n" + said());
  command("run");
  std::vector<Waveform> waveforms;
  for (const std::string& name : wanted) {
    waveforms.push_back({vector_named("time"), vector_named(name)});
  }
  command("destroy all");
  command("remcirc");
  return waveforms;
}

}  // namespace sixty::reference
