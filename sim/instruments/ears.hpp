#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::instruments {

/// Stethoscope: tells when something of a part moves, and how fast where it strikes.
class Stethoscope final : public TraceSink {
 public:
  struct Heard {
    SimTime at = 0;
    std::string kind;
    double speed_m_per_s = 0;  ///< 0 where nothing tells it
  };
  Stethoscope(const Installation& installation, PartId part);
  void record(const TraceRecord& record) override;
  const std::vector<Heard>& heard() const { return heard_; }

 private:
  PartId part_;
  std::map<std::uint16_t, std::string> sounds_;  ///< by kind
  std::vector<Heard> heard_;
};

/// Tally of what a part does: strokes, steps, closings.
class Tally final : public TraceSink {
 public:
  /// `kind`: of event; empty: all kinds.
  Tally(PartId part, std::string kind) : part_(part), kind_(std::move(kind)) {}
  void record(const TraceRecord& record) override;
  const std::map<std::string, std::int64_t>& counts() const { return counts_; }

 private:
  PartId part_;
  std::string kind_;
  std::map<std::string, std::int64_t> counts_;
};

/// Several sinks that are told the same.
class Ears final : public TraceSink {
 public:
  void add(TraceSink& sink) { sinks_.push_back(&sink); }
  bool empty() const { return sinks_.empty(); }
  void record(const TraceRecord& record) override {
    for (TraceSink* sink : sinks_) sink->record(record);
  }

 private:
  std::vector<TraceSink*> sinks_;
};

}  // namespace sixty::instruments
