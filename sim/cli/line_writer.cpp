#include "sim/cli/line_writer.hpp"

namespace sixty::cli {

void LineWriter::write_record(const TraceRecord& record) {
  waiting_.push_back(record_line(record));
  if (job().signals.empty()) write_settled(record.event.at);
}

void LineWriter::write_settled(SimTime) {
  if (waiting_.empty()) return;
  const std::string tail = signals_text() + std::string(line_end());
  for (const std::string& line : waiting_) put(line + tail);
  waiting_.clear();
}

void LineWriter::write_sample(SimTime at) {
  put(sample_line(at) + signals_text() + std::string(line_end()));
}

void LineWriter::write_end(SimTime end) { write_settled(end); }

}  // namespace sixty::cli
