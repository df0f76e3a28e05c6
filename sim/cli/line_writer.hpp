#pragma once

#include "sim/cli/trace_writer.hpp"

namespace sixty::cli {

/// A trace of one line to an event, with the signals' values at the end of each line.
class LineWriter : public TraceWriter {
 public:
  using TraceWriter::TraceWriter;

 protected:
  /// A line without its signals and its end.
  virtual std::string record_line(const TraceRecord& record) const = 0;
  virtual std::string sample_line(SimTime at) const = 0;
  /// What follows on that line.
  virtual std::string signals_text() const = 0;
  virtual std::string_view line_end() const = 0;

 private:
  void write_record(const TraceRecord& record) final;
  void write_settled(SimTime at) final;
  void write_sample(SimTime at) final;
  void write_end(SimTime end) final;

  std::vector<std::string> waiting_;  // lines of this instant
};

}  // namespace sixty::cli
