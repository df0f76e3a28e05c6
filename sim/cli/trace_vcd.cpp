// Value change dump by IEEE 1364 (2005, clause 18): readings as real variables or one-bit wires,
// events of parts as event variables. Which events occur is known only at the end, and they must be
// declared at the head of the file; so the changes wait in a nameless file until then.
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "sim/base/units.hpp"
#include "sim/base/vcd_names.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/trace_writer.hpp"

namespace sixty::cli {
namespace {

// Nothing inside a comment may look like a keyword.
std::string comment_text(std::string text) {
  for (char& c : text) {
    if (c == '$' || c == '\n' || c == '\r') c = '_';
  }
  return text;
}

// One line per change: "1!" of a wire, "r2.5 !" of a real; empty if there is no such number.
std::string change_text(const Signal& signal, double value, const std::string& code) {
  if (signal.is_flag())
    return fmt::format("{}{}\n", std::isnan(value) ? 'x' : value != 0 ? '1' : '0', code);
  if (!std::isfinite(value)) return "";
  return fmt::format("r{} {}\n", format_exact(value), code);
}

// Bytes put aside in a file that nobody sees and that vanishes with the program.
class Spool {
 public:
  Spool() : file_(std::tmpfile()) {}
  Spool(const Spool&) = delete;
  Spool& operator=(const Spool&) = delete;
  ~Spool() {
    if (file_ != nullptr) std::fclose(file_);
  }
  bool write(const std::string& bytes) {
    return file_ != nullptr && std::fwrite(bytes.data(), 1, bytes.size(), file_) == bytes.size();
  }
  // Hands everything over, from the beginning. Errors: false.
  bool replay(const std::function<void(std::string_view)>& take) {
    if (file_ == nullptr || std::fflush(file_) != 0 || std::fseek(file_, 0, SEEK_SET) != 0) {
      return false;
    }
    std::string block(1 << 16, '\0');
    while (const std::size_t got = std::fread(block.data(), 1, block.size(), file_)) {
      take(std::string_view(block).substr(0, got));
    }
    return std::ferror(file_) == 0;
  }

 private:
  std::FILE* file_;
};

class VcdWriter final : public TraceWriter {
 public:
  explicit VcdWriter(TraceJob job)
      : TraceWriter(std::move(job)), shown_(this->job().signals.size()) {}

 private:
  void write_head() override {}

  void write_record(const TraceRecord& record) override {
    change(record.event.at, "1" + code_of_event(record) + "\n");
  }

  void write_settled(SimTime at) override {
    const std::vector<double> values = read_signals();
    if (first_.empty()) first_ = values;
    for (std::size_t i = 0; i < values.size(); ++i) {
      std::string text = change_text(job().signals[i], values[i], identifier_code(i));
      if (text == shown_[i]) continue;
      if (shown_known_) change(at, text);
      shown_[i] = std::move(text);
    }
    shown_known_ = true;
  }

  void write_sample(SimTime at) override { write_settled(at); }

  void write_end(SimTime end) override {
    put(declarations());
    put("#0\n" + first_values());
    if (!spool_.replay([this](std::string_view bytes) { put(bytes); })) {
      return fail("cannot keep the trace's changes in a temporary file until its end");
    }
    if (end > marked_) put(fmt::format("#{}\n", end));
  }

  void change(SimTime at, const std::string& text) {
    std::string bytes;
    if (at > marked_) {
      bytes = fmt::format("#{}\n", at);
      marked_ = at;
    }
    if (!spool_.write(bytes + text)) {
      fail("cannot keep the trace's changes in a temporary file until its end");
    }
  }

  // An opportunity that failed is a variable of its own.
  const std::string& code_of_event(const TraceRecord& record) {
    const std::string name = simple_identifier(record.kind) + (record.acted ? "" : "_failed");
    std::string& code = events_[{record.part, name}];
    if (code.empty()) code = identifier_code(shown_.size() + events_.size() - 1);
    return code;
  }

  std::string declarations() const {
    const Installation& scene = *job().installation;
    std::string text = fmt::format(
        "$comment scene {}, seed {} $end\n$date {} $end\n$version sixtybeats {} $end\n"
        "$timescale 1 ns $end\n",
        comment_text(scene.name), scene.seed, comment_text(start_text(scene)), SIXTY_VERSION);
    text += unit_comments();
    text += fmt::format("$scope module {} $end\n", simple_identifier(scene.name));
    for (PartId part = 0; part < scene.parts.size(); ++part) text += scope_of(part);
    return text + "$upscope $end\n$enddefinitions $end\n";
  }

  std::string unit_comments() const {
    std::string text;
    for (const Signal& signal : job().signals) {
      if (!signal.has_unit()) continue;
      text += fmt::format("$comment {} in {} $end\n", comment_text(signal.name),
                          comment_text(signal.unit));
    }
    return text;
  }

  std::string scope_of(PartId part) const {
    std::set<std::string> taken;
    std::string variables = signals_of(part, taken);
    variables += events_of(part, taken);  // these give way to readings' names
    if (variables.empty()) return "";
    return fmt::format("$scope module {} $end\n{}$upscope $end\n",
                       simple_identifier(part_name(*job().installation, part)), variables);
  }

  std::string signals_of(PartId part, std::set<std::string>& taken) const {
    std::string text;
    for (std::size_t i = 0; i < job().signals.size(); ++i) {
      const Signal& signal = job().signals[i];
      if (signal.part != part) continue;
      const std::string name = simple_identifier(signal.name.substr(signal.name.find('.') + 1));
      taken.insert(name);
      text += fmt::format("$var {} {} {} $end\n", signal.is_flag() ? "wire 1" : "real 64",
                          identifier_code(i), name);
    }
    return text;
  }

  // An event that bears the name of a reading gets a longer one.
  std::string events_of(PartId part, std::set<std::string>& taken) const {
    std::string text;
    for (const auto& [key, code] : events_) {
      if (key.first != part) continue;
      std::string name = key.second;
      while (!taken.insert(name).second) name += "_event";
      text += fmt::format("$var event 1 {} {} $end\n", code, name);
    }
    return text;
  }

  std::string first_values() const {
    std::string text = "$dumpvars\n";
    for (std::size_t i = 0; i < first_.size(); ++i) {
      text += change_text(job().signals[i], first_[i], identifier_code(i));
    }
    return text + "$end\n";
  }

  Spool spool_;
  SimTime marked_ = 0;  // last time written; 0 stands at the head of the first values
  std::map<std::pair<PartId, std::string>, std::string> events_;  // codes, by part and name
  std::vector<double> first_;                                     // values at the start
  std::vector<std::string> shown_;  // per signal, the last change that was written
  bool shown_known_ = false;
};

}  // namespace

std::unique_ptr<TraceWriter> make_vcd_writer(TraceJob job) {
  return std::make_unique<VcdWriter>(std::move(job));
}

}  // namespace sixty::cli
