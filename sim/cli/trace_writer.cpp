#include "sim/cli/trace_writer.hpp"

#include <algorithm>
#include <iterator>

namespace sixty::cli {
namespace {

struct Form {
  const char* ending;
  std::unique_ptr<TraceWriter> (*make)(TraceJob job);
};
constexpr Form kForms[] = {
    {".csv", make_csv_writer}, {".jsonl", make_jsonl_writer}, {".vcd", make_vcd_writer}};

bool ends_with(std::string_view text, std::string_view ending) {
  return text.size() > ending.size() && text.substr(text.size() - ending.size()) == ending;
}

}  // namespace

bool TraceWriter::open(const std::string& path, std::string& error) {
  if (!file_.open(path, error)) return false;
  write_head();
  return true;
}

void TraceWriter::record(const TraceRecord& record) {
  if (!failed_) write_record(record);
}

void TraceWriter::settled(SimTime at) {
  if (!failed_) write_settled(at);
}

void TraceWriter::sample(SimTime at) {
  if (!failed_) write_sample(at);
}

bool TraceWriter::finish(SimTime end, std::string& error) {
  if (!failed_) write_end(end);
  if (!reason_.empty()) {
    error = reason_;
    return false;
  }
  return file_.commit(error);
}

std::vector<double> TraceWriter::read_signals() const {
  std::vector<double> values;
  values.reserve(job_.signals.size());
  for (const Signal& signal : job_.signals) values.push_back(job_.read(signal));
  return values;
}

void TraceWriter::put(std::string_view bytes) {
  if (!file_.write(bytes)) failed_ = true;
}

void TraceWriter::fail(const std::string& reason) {
  failed_ = true;
  if (reason_.empty()) reason_ = reason;
}

const std::vector<std::string>& trace_endings() {
  static const std::vector<std::string> kEndings = [] {
    std::vector<std::string> endings;
    for (const Form& form : kForms) endings.emplace_back(form.ending);
    return endings;
  }();
  return kEndings;
}

bool has_trace_ending(const std::string& path) {
  const auto fits = [&](const Form& form) { return ends_with(path, form.ending); };
  return std::any_of(std::begin(kForms), std::end(kForms), fits);
}

std::unique_ptr<TraceWriter> make_trace_writer(const std::string& path, TraceJob job) {
  for (const Form& form : kForms) {
    if (ends_with(path, form.ending)) return form.make(std::move(job));
  }
  return nullptr;
}

}  // namespace sixty::cli
