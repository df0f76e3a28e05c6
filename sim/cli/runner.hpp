#pragma once

#include "sim/cli/trace_writer.hpp"
#include "sim/run/session.hpp"

namespace sixty::cli {

struct RunPlan {
  SimTime until = 0;
  SimTime sample = 0;             ///< interval of samples; 0: none
  TraceWriter* writer = nullptr;  ///< may be none
  TraceSink* sink = nullptr;      ///< is told what happens; the same as `writer`, or another
  bool progress = false;          ///< on standard error
};

enum class RunEnd {
  kDone,
  kInterrupted,
  kWriterFailed,
};

/// Runs a session. An interrupt, or a full disk, ends it at the instant that it has come to. It
/// goes in slices of a fraction of a second, to show its progress; where they end depends on the
/// machine's speed, what comes out does not. The session keeps the sink, which must outlive it.
/// Errors: throws RunFailure as Session does.
RunEnd run_session(Session& session, const RunPlan& plan);

}  // namespace sixty::cli
