#include "sim/practice/progress.hpp"

#include <pwd.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <system_error>

#include "sim/base/file.hpp"
#include "sim/words/words.hpp"

namespace sixty::practice {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* kFormat = "sixtybeats-learner/1";
constexpr const char* kEnding = ".json";
constexpr std::size_t kMostBytes = 16u << 20, kMostName = 40;

Json json_of(const StepTaken& one) {
  return {{"lesson", one.lesson}, {"topic", one.topic}, {"step", one.step},
          {"right", one.right},   {"hints", one.hints}, {"when", one.when}};
}

Json json_of(const HuntTaken& one) {
  return {{"scene", one.scene},
          {"level", one.level},
          {"seed", one.seed},
          {"mended", one.mended},
          {"proved", one.proved},
          {"minutes", one.minutes},
          {"best_minutes", one.best_minutes},
          {"harm", one.harm},
          {"needless", one.needless},
          {"harmful", one.harmful},
          {"good_parts", one.good_parts},
          {"when", one.when}};
}

/// Errors: throws as the library does where something is missing or of another type.
Progress progress_of(const Json& json) {
  if (json.at("format") != kFormat) throw std::invalid_argument("another format");
  Progress progress;
  progress.learner = json.at("learner");
  for (const Json& one : json.at("steps"))
    progress.steps.push_back({one.at("lesson"), one.at("topic"), one.at("step"), one.at("right"),
                              one.at("hints"), one.at("when")});
  for (const Json& one : json.at("hunts"))
    progress.hunts.push_back({one.at("scene"), one.at("level"), one.at("seed"), one.at("mended"),
                              one.at("proved"), one.at("minutes"), one.at("best_minutes"),
                              one.at("harm"), one.at("needless"), one.at("harmful"),
                              one.at("good_parts"), one.at("when")});
  return progress;
}

bool is_of_another_version(const Json& json) {
  const auto format = json.find("format");
  return format != json.end() && format->is_string() && *format != kFormat &&
         format->get<std::string>().rfind("sixtybeats-learner/", 0) == 0;
}

/// Gives a file a name that none has. Returns it; empty where that cannot be.
std::string put_aside(const std::string& path) {
  std::error_code error;
  for (int k = 1; k < 1000; ++k) {
    const std::string aside = path + ".damaged-" + std::to_string(k);
    if (fs::exists(aside, error)) continue;
    fs::rename(path, aside, error);
    return error ? "" : aside;
  }
  return "";
}

}  // namespace

namespace {

std::map<std::string, Mastery> mastery_by(const Progress& progress, std::string StepTaken::*what) {
  std::map<std::string, std::map<std::string, double>> last;
  for (const StepTaken& one : progress.steps)
    last[one.*what][one.lesson + "/" + one.step] = !one.right ? 0 : one.hints == 0 ? 1 : 0.5;
  std::map<std::string, Mastery> all;
  for (const auto& [topic, steps] : last) {
    Mastery& mastery = all[topic];
    for (const auto& [step, share] : steps) mastery.share += share;
    mastery.steps = static_cast<int>(steps.size());
    mastery.share /= static_cast<double>(steps.size());
  }
  return all;
}

}  // namespace

std::map<std::string, Mastery> mastery_of(const Progress& progress) {
  return mastery_by(progress, &StepTaken::topic);
}

std::map<std::string, Mastery> mastery_of_lessons(const Progress& progress) {
  return mastery_by(progress, &StepTaken::lesson);
}

bool is_learner(const std::string& name) {
  const auto may_be = [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return std::isalnum(byte) != 0 || byte >= 0x80 || c == ' ' || c == '-' || c == '_' || c == '.';
  };
  if (name.empty() || name.size() > kMostName || name.back() == ' ') return false;
  const auto first = static_cast<unsigned char>(name.front());
  return (std::isalpha(first) != 0 || first >= 0x80) &&
         std::all_of(name.begin(), name.end(), may_be);
}

std::string Learners::path_of(const std::string& learner) const {
  return (fs::path(folder_) / (learner + kEnding)).string();
}

std::vector<std::string> Learners::names() const {
  std::vector<std::string> names;
  std::error_code error;
  for (const fs::directory_entry& file : fs::directory_iterator(folder_, error)) {
    if (file.path().extension() == kEnding && is_learner(file.path().stem().string()))
      names.push_back(file.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::optional<Progress> Learners::read(const std::string& learner, std::string& told,
                                       bool puts_aside) const {
  Progress fresh;
  fresh.learner = learner;
  const std::string path = path_of(learner);
  std::error_code error;
  if (!fs::exists(path, error)) return fresh;
  Diagnostics unread;
  const auto bytes = read_file_bounded(path, kMostBytes, unread);
  if (!bytes) {
    told = unread.to_text();
    return std::nullopt;
  }
  try {
    const Json json = Json::parse(*bytes);
    if (is_of_another_version(json)) {
      told = say("{}: it is of another version of this program, and is left as it is", path);
      return std::nullopt;
    }
    Progress known = progress_of(json);
    known.learner = learner;  // the file's name counts: it may have been copied
    return known;
  } catch (const std::exception&) {
    const std::string aside = puts_aside ? put_aside(path) : "";
    told = aside.empty() ? say("{}: it is damaged", path)
                         : say("{}: it was damaged, and is kept as {}", path, aside);
    if (aside.empty()) return std::nullopt;
    return fresh;
  }
}

bool Learners::write(const Progress& progress, std::string& error) const {
  if (!is_learner(progress.learner)) {
    error = say("no file can bear this name: {}", progress.learner);
    return false;
  }
  if (folder_.empty()) {
    error = tr("there is no folder for it: this user has no home");
    return false;
  }
  std::error_code made;
  fs::create_directories(folder_, made);
  Json json{{"format", kFormat}, {"learner", progress.learner}};
  json["steps"] = Json::array();
  json["hunts"] = Json::array();
  for (const StepTaken& one : progress.steps) json["steps"].push_back(json_of(one));
  for (const HuntTaken& one : progress.hunts) json["hunts"].push_back(json_of(one));
  return write_file_whole(path_of(progress.learner), json.dump(1) + "\n", error);
}

std::string learners_folder(const std::string& chosen) {
  fs::path base(chosen);
  if (chosen.empty()) {
    const passwd* user = ::getpwuid(::getuid());
    if (user == nullptr || user->pw_dir == nullptr) return "";
    base = fs::path(user->pw_dir) / ".local" / "share";
  }
  return (base / "sixtybeats" / "learners").string();
}

bool Learners::forget(const std::string& learner, std::string& error) const {
  std::error_code failed;
  if (is_learner(learner) && fs::remove(path_of(learner), failed)) return true;
  error = failed ? failed.message() : tr("there is nobody of this name");
  return false;
}

}  // namespace sixty::practice
