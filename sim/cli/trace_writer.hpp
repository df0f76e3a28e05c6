#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "sim/base/file.hpp"
#include "sim/cli/signals.hpp"
#include "sim/run/session.hpp"

namespace sixty::cli {

/// What a trace is of.
struct TraceJob {
  std::shared_ptr<const Installation> installation;
  std::vector<Signal> signals;
  /// Value of a signal at the present instant of the run.
  std::function<double(const Signal&)> read;
};

/// Writes what happens in a run to a file that appears whole, at the end, or not at all.
///
/// Signals are read when an instant is settled: its events are done and the network has followed.
/// So an event's line bears the values that it led to, the same as a sample at that instant.
class TraceWriter : public TraceSink {
 public:
  explicit TraceWriter(TraceJob job) : job_(std::move(job)) {}
  /// Errors: false, the reason in `error`.
  bool open(const std::string& path, std::string& error);
  void record(const TraceRecord& record) final;
  void settled(SimTime at) final;
  /// A line of signals alone. Order: after the run has come to `at`.
  void sample(SimTime at);
  /// Ends the file, at the run's last instant, and gives it its name. Errors: false, the reason in
  /// `error`; no file is there then, or the older one as it was.
  bool finish(SimTime end, std::string& error);
  /// Nothing more can be written; finish() tells why.
  bool failed() const { return failed_; }

 protected:
  virtual void write_head() = 0;
  virtual void write_record(const TraceRecord& record) = 0;
  /// Signals as of `at`; for the records of that instant if there were any.
  virtual void write_settled(SimTime at) = 0;
  virtual void write_sample(SimTime at) = 0;
  virtual void write_end(SimTime end) = 0;

  const TraceJob& job() const { return job_; }
  /// Values of all signals now, in their order.
  std::vector<double> read_signals() const;
  void put(std::string_view bytes);
  void fail(const std::string& reason);

 private:
  TraceJob job_;
  WholeFile file_;
  bool failed_ = false;
  std::string reason_;  ///< why, if the file itself does not know
};

/// Endings of the files that can be written: ".csv" and so on.
const std::vector<std::string>& trace_endings();
bool has_trace_ending(const std::string& path);
/// A writer of the form that the path's ending names; nullptr if it names none.
std::unique_ptr<TraceWriter> make_trace_writer(const std::string& path, TraceJob job);

std::unique_ptr<TraceWriter> make_csv_writer(TraceJob job);
std::unique_ptr<TraceWriter> make_jsonl_writer(TraceJob job);
std::unique_ptr<TraceWriter> make_vcd_writer(TraceJob job);

}  // namespace sixty::cli
