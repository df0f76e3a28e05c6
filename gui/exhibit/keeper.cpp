#include "gui/exhibit/keeper.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>

namespace sixty::gui {
namespace {

constexpr std::int64_t kBeat_s = 60;

std::string in_folder(const std::string& folder, const char* name) {
  return folder.empty() ? "" : folder + "/" + name;
}

LogPlan plan_of(const StateEnvironment& environment) {
  LogPlan plan;
  plan.path = in_folder(log_folder(environment), "exhibit.log");
  return plan;
}

/// As counts have it.
std::string as_action(std::string name) {
  std::transform(name.begin(), name.end(), name.begin(), [](char c) { return c == ' ' ? '_' : c; });
  return name;
}

}  // namespace

Keeper::Keeper(const StateEnvironment& environment)
    : heartbeat_(in_folder(heartbeat_folder(environment), "heartbeat")),
      gate_(in_folder(state_folder(environment), "pin-gate")),
      counts_(state_folder(environment), writer_),
      log_(plan_of(environment)),
      watchdog_(std::getenv("WATCHDOG_USEC")),
      desk_(in_folder(state_folder(environment), "staff.yaml"), writer_) {}

void Keeper::begin(std::int64_t now, const std::string& title) {
  began_ = now;
  log_.note(LogLevel::kInfo, "begins: " + title, now);
  watchdog_.ready("running");
}

void Keeper::tested(std::int64_t now, const std::vector<std::string>& flaws) {
  flaws_ = flaws;
  for (const std::string& flaw : flaws) log_.note(LogLevel::kError, "self-test: " + flaw, now);
  if (flaws.empty()) log_.note(LogLevel::kInfo, "self-test: all pieces are as they say", now);
}

void Keeper::note(std::int64_t now, const std::string& words) {
  log_.note(LogLevel::kWarning, words, now);
}

void Keeper::follow(std::int64_t now, std::int64_t gone_ms, const CalendarTime& shown,
                    exhibit::Attendant& attendant) {
  day_ = shown.day;
  for (const std::string& use : attendant.take_uses())
    counts_.count(day_, attendant.language(), as_action(use));
  if (const auto stay_s = attendant.take_stay())
    counts_.count_stay(day_, attendant.language(), std::llround(*stay_s));
  counts_.look(now);
  watchdog_.alive(gone_ms);
  // Set back, the clock begins its minute anew.
  if (beat_at_ && now >= *beat_at_ && now < *beat_at_ + kBeat_s) return;
  beat_at_ = now;
  beat(now, attendant.language());
}

void Keeper::beat(std::int64_t now, const std::string& language) {
  const Minute minute{now - began_, counts_.total(day_, "visit"), counts_.median_stay(day_),
                      language, static_cast<std::int64_t>(troubles().size())};
  log_.note(LogLevel::kInfo, minute_line(minute), now);
  if (!heartbeat_.empty()) write_heartbeat(heartbeat_, now, minute, writer_);
  writer_.try_again();
}

void Keeper::end(std::int64_t now) {
  counts_.keep();
  writer_.settle();
  watchdog_.stopping();
  log_.note(LogLevel::kInfo, "ends in good order", now);
}

std::string Keeper::gate_line() const {
  std::string line;
  std::ifstream file(gate_);
  std::getline(file, line);
  return line;
}

void Keeper::keep_gate_line(const std::string& line) {
  if (!gate_.empty()) writer_.write(gate_, line + "\n");
}

std::vector<std::string> Keeper::troubles() const {
  std::vector<std::string> all = flaws_;
  for (const std::string& one : {desk_.note(), counts_.note(), log_.trouble(), writer_.trouble()})
    if (!one.empty()) all.push_back(one);
  return all;
}

}  // namespace sixty::gui
