#include "gui/staff/logbook.hpp"

#include <fmt/format.h>
#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/rotating_file_sink.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <system_error>

#include "gui/keep/write.hpp"
#include "gui/staff/sheet_writer.hpp"
#include "gui/staff/utc.hpp"
#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

const char* word_of(LogLevel level) {
  switch (level) {
    case LogLevel::kInfo:
      return "info";
    case LogLevel::kWarning:
      return "warning";
    case LogLevel::kError:
      return "error";
  }
  return "error";
}

/// A word that stands between spaces.
std::string one_word(std::string text) {
  const auto is_other = [](char c) {
    return !is_letter(c) && !is_digit(c) && c != '-' && c != '_';
  };
  std::replace_if(text.begin(), text.end(), is_other, '?');
  return text.empty() ? "none" : text;
}

std::string stay_text(const Minute& minute, const char* unit) {
  return minute.median_stay ? std::to_string(*minute.median_stay) + unit : "none";
}

}  // namespace

struct Logbook::Files {
  explicit Files(const LogPlan& plan) : sink(plan.path, plan.most_bytes, plan.kept) {
    sink.set_formatter(std::make_unique<spdlog::pattern_formatter>("%v"));
  }
  void put(const std::string& line) {
    // Its time is not shown: it stands in the line.
    sink.log(spdlog::details::log_msg(spdlog::log_clock::time_point(), {}, "", spdlog::level::info,
                                      line));
    sink.flush();
  }
  spdlog::sinks::rotating_file_sink_st sink;
};

std::string minute_line(const Minute& minute) {
  return fmt::format("alive uptime={}s visits={} median_stay={} language={} faults={}",
                     minute.uptime, minute.visits, stay_text(minute, "s"),
                     one_word(minute.language), minute.faults);
}

std::string heartbeat_text(std::int64_t now, const Minute& minute) {
  return fmt::format(
      "unix={}\ntime={}\nuptime_s={}\nvisits={}\nmedian_stay_s={}\nlanguage={}\nfaults={}\n", now,
      utc_text(now), minute.uptime, minute.visits, stay_text(minute, ""), one_word(minute.language),
      minute.faults);
}

void write_heartbeat(const std::string& path, std::int64_t now, const Minute& minute,
                     SheetWriter& writer) {
  writer.write(path, heartbeat_text(now, minute));
}

Logbook::Logbook(const LogPlan& plan) : plan_(plan) {}
Logbook::~Logbook() = default;

bool Logbook::is_time_to_look(std::int64_t now) const {
  return !has_looked_ || now < looked_ || now - looked_ >= kTryAgain;
}

void Logbook::open(std::int64_t now) {
  looked_ = now;
  has_looked_ = true;
  std::error_code code;
  const fs::file_type kind = fs::status(plan_.path, code).type();
  if (files_ != nullptr && kind == fs::file_type::regular) return;
  files_.reset();
  // A pipe would be waited for until somebody reads from it.
  if (kind != fs::file_type::regular && kind != fs::file_type::not_found) {
    trouble_ = code ? fmt::format("the log {} cannot be written: {}", printable(plan_.path, 500),
                                  code.message())
                    : fmt::format(
                          "the log {} cannot be written: it is no regular file; give the "
                          "name of a file",
                          printable(plan_.path, 500));
    return;
  }
  if (!make_folder(folder_of(plan_.path), trouble_)) return;
  files_ = std::make_unique<Files>(plan_);
}

void Logbook::put(LogLevel level, const std::string& line, std::int64_t now) {
  if (is_time_to_look(now)) open(now);
  if (files_ == nullptr) {
    ++lost_;
    ++lost_since_;
    return;
  }
  if (lost_since_ > 0) {
    files_->put(fmt::format("{} {} {} lines before this one could not be written: {}",
                            utc_text(now), word_of(LogLevel::kWarning), lost_since_, trouble_));
    lost_since_ = 0;
  }
  files_->put(fmt::format("{} {} {}", utc_text(now), word_of(level), line));
  trouble_.clear();
}

void Logbook::note(LogLevel level, const std::string& words, std::int64_t now) {
  const std::string line = printable(words, kMostLine);
  recent_.push_back(fmt::format("{} {} {}", utc_text(now), word_of(level), line));
  if (recent_.size() > kRecent) recent_.pop_front();
  try {
    put(level, line, now);
  } catch (const std::exception& reason) {
    files_.reset();
    trouble_ = "the log cannot be written: " + printable(reason.what(), 500);
    ++lost_;
    ++lost_since_;
  }
}

}  // namespace sixty::gui
