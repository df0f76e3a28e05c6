#pragma once

#include <span>

#include "gui/strip/scribe.hpp"

namespace sixty::gui {

/// Follows the lanes of a session through columns of time: at each column's ends, at what happens,
/// and a while after it.
class Pen final : public TraceSink {
 public:
  Pen(Session& session, std::span<const LaneOf> lanes);
  ~Pen() override;
  Pen(const Pen&) = delete;
  Pen& operator=(const Pen&) = delete;
  /// One column, from where the session stands, appended lane by lane; and when exactly, in it,
  /// those that are states changed.
  void write(SimTime to, std::vector<Column>& columns, std::vector<Edge>& edges);

  void record(const TraceRecord& record) override;
  void settled(SimTime at) override;
  bool full() const override { return false; }

 private:
  void sample(bool all, SimTime at);
  Session& session_;
  std::span<const LaneOf> lanes_;
  std::vector<Column> now_;
  std::vector<Edge>* edges_ = nullptr;
  std::vector<std::uint8_t> stirred_;  ///< lanes of parts that something has happened to
  bool begins_ = false, any_stirred_ = false;
  int samples_ = 0;       ///< of all lanes, in this column
  SimTime due_ = kNever;  ///< for another look at what has begun
};

}  // namespace sixty::gui
