#include <fmt/format.h>

#include "sim/cli/line_writer.hpp"
#include "sim/cli/record_json.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

class JsonlWriter final : public LineWriter {
 public:
  using LineWriter::LineWriter;

 private:
  void write_head() override {
    const Installation& scene = *job().installation;
    put(fmt::format(R"({{"format":"sixtybeats-trace/1","scene":{},"seed":{},"start":{}{}}})",
                    json_text(scene.name), scene.seed, json_text(start_text(scene)), units_text()) +
        "\n");
  }

  std::string units_text() const {
    std::string members;
    for (const Signal& signal : job().signals) {
      if (!signal.has_unit()) continue;
      members +=
          (members.empty() ? "" : ",") + json_text(signal.name) + ":" + json_text(signal.unit);
    }
    return members.empty() ? "" : ",\"units\":{" + members + "}";
  }

  std::string record_line(const TraceRecord& record) const override {
    return "{" + record_members(record, *job().installation);
  }

  std::string sample_line(SimTime at) const override { return "{\"time_s\":" + seconds_text(at); }

  std::string signals_text() const override {
    const std::vector<double> values = read_signals();
    if (values.empty()) return "";
    std::string members;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (i > 0) members += ',';
      members += json_text(job().signals[i].name) + ":" + json_number(values[i]);
    }
    return ",\"signals\":{" + members + "}";
  }

  std::string_view line_end() const override { return "}\n"; }
};

}  // namespace

std::unique_ptr<TraceWriter> make_jsonl_writer(TraceJob job) {
  return std::make_unique<JsonlWriter>(std::move(job));
}

}  // namespace sixty::cli
