#pragma once

#include <cstdint>
#include <memory>

namespace sixty {

/// The same events as InstallationEvents, each a run of an SC_METHOD; SystemC keeps no causes.
/// There can be one in a process, made before any other SystemC object runs. Read as C++17 and as
/// C++20: SystemC links only with the dialect that it was built in.
class SystemcEvents {
 public:
  SystemcEvents();
  ~SystemcEvents();

  /// Goes on for a simulated time, whose last instant is not included. Units: s. Gives the number
  /// of events on the way.
  std::uint64_t run_for(double seconds);

 private:
  class Installation;
  std::unique_ptr<Installation> installation_;
};

}  // namespace sixty
