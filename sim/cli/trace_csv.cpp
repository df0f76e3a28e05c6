#include <fmt/format.h>

#include <cmath>

#include "sim/base/units.hpp"
#include "sim/cli/line_writer.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

constexpr std::string_view kColumns =
    "time_s,event,cause,part,kind,acted,current_a,volts,gap_m,speed_m_per_s,needed_v,value,number";
constexpr std::string_view kNoEvent = ",,,,,,,,,,,,";  // after the time of a sampled line

// By RFC 4180: a field with a comma, quote or line end stands in quotes, quotes inside doubled.
std::string quoted_if_need_be(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

std::string column_name(const Signal& signal) {
  return signal.has_unit() ? signal.name + " (" + signal.unit + ")" : signal.name;
}

std::string number_text(double value) { return std::isfinite(value) ? format_exact(value) : ""; }

class CsvWriter final : public LineWriter {
 public:
  using LineWriter::LineWriter;

 private:
  void write_head() override {
    std::string line(kColumns);
    for (const Signal& signal : job().signals) line += "," + quoted_if_need_be(column_name(signal));
    put(line + "\n");
  }

  std::string record_line(const TraceRecord& r) const override {
    const Measured m = measured(r);
    std::string line = fmt::format("{},{},{},{},{},{}", seconds_text(r.event.at),
                                   event_id_text(r.event.id), event_id_text(r.event.cause),
                                   quoted_if_need_be(part_name(*job().installation, r.part)),
                                   quoted_if_need_be(r.kind), r.acted ? 1 : 0);
    for (const MeasuredField& field : fields_of(m)) {
      line += ',';
      if (field.number) line += number_text(*field.number);
    }
    line += ',';
    if (m.number) line += std::to_string(*m.number);
    return line;
  }

  std::string sample_line(SimTime at) const override {
    return seconds_text(at) + std::string(kNoEvent);
  }

  std::string signals_text() const override {
    std::string columns;
    for (const double value : read_signals()) columns += "," + number_text(value);
    return columns;
  }

  std::string_view line_end() const override { return "\n"; }
};

}  // namespace

std::unique_ptr<TraceWriter> make_csv_writer(TraceJob job) {
  return std::make_unique<CsvWriter>(std::move(job));
}

}  // namespace sixty::cli
