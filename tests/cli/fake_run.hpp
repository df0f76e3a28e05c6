#pragma once

#include <map>
#include <memory>
#include <string>

#include "sim/cli/trace_writer.hpp"

namespace sixty::cli {

/// An installation of two parts that do nothing, "lamp" and "other", and records made by hand.
class FakeRun {
 public:
  FakeRun();
  TraceJob job(const std::vector<std::string>& signals);
  /// Values that the signals have, by name.
  std::map<std::string, double> now;
  std::shared_ptr<const Installation> installation() const { return installation_; }

  static TraceRecord event(SimTime at, EventId id, EventId cause, PartId part,
                           std::string_view kind);

 private:
  std::shared_ptr<Registry> registry_;
  std::shared_ptr<Installation> installation_;
};

}  // namespace sixty::cli
