#include "tests/models/trial.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <fstream>

#include "models/part_list.hpp"
#include "tests/models/weather.hpp"

namespace sixty {
namespace {

const Registry& all_parts() {
  static const Registry registry = [] {
    Registry all = models::registry();
    all.add("weather", weather_part(), "tests/models");
    return all;
  }();
  return registry;
}

std::shared_ptr<const Installation> load(const std::string& yaml,
                                         const std::vector<std::string>& set,
                                         Diagnostics& diagnostics) {
  static int count = 0;
  const auto* info = testing::UnitTest::GetInstance()->current_test_info();
  std::string name = std::string(info->test_suite_name()) + info->name() + std::to_string(++count);
  std::replace(name.begin(), name.end(), '/', '_');
  const std::string path = testing::TempDir() + name + ".yaml";
  std::ofstream(path) << yaml;
  SceneChanges changes;
  changes.set = set;
  auto installation = load_scene(path, all_parts(), changes, diagnostics);
  std::remove(path.c_str());
  return installation;
}

}  // namespace

Trial::Trial(const std::string& yaml, const std::vector<std::string>& changes,
             const Session::Options& options) {
  Diagnostics diagnostics;
  auto installation = load(yaml, changes, diagnostics);
  if (installation == nullptr) {
    ADD_FAILURE() << diagnostics.to_text();
    return;
  }
  session_ = std::make_unique<Session>(installation, options);
  session_->set_sink(this);
}

Trial::~Trial() = default;

void Trial::run_to(double seconds) { session_->run_until(from_seconds(seconds)); }

double Trial::read(const std::string& name) {
  const std::size_t dot = name.find('.');
  const Installation& all = session_->installation();
  for (PartId part = 0; part < all.parts.size(); ++part) {
    if (all.parts[part].name != name.substr(0, dot)) continue;
    const auto& readings = all.parts[part].kind->declaration.readings;
    for (std::size_t k = 0; k < readings.size(); ++k) {
      if (readings[k].name == name.substr(dot + 1)) return session_->read(part, k);
    }
  }
  ADD_FAILURE() << "no reading " << name;
  return 0;
}

void Trial::record(const TraceRecord& r) {
  Happened h{to_seconds(r.event.at),
             session_->installation().parts[r.part].name,
             std::string(r.kind),
             0,
             0,
             0,
             r.acted,
             {}};
  for (const Condition& c : r.conditions) {
    h.conditions.push_back({std::string(c.what), c.measured, c.needed, c.met});
  }
  if (r.located != nullptr) {
    h.volts = r.located->volts;
    h.needed_v = r.located->needed_v;
    h.current_a = r.located->current_a;
  }
  events_.push_back(std::move(h));
}

std::optional<double> Trial::when(const std::string& part, const std::string& kind,
                                  double from_s) const {
  for (const Happened& h : events_) {
    if (h.part == part && h.kind == kind && h.at_s >= from_s) return h.at_s;
  }
  return std::nullopt;
}

std::size_t Trial::count(const std::string& part, const std::string& kind) const {
  return static_cast<std::size_t>(
      std::count_if(events_.begin(), events_.end(),
                    [&](const Happened& h) { return h.part == part && h.kind == kind; }));
}

std::string mistakes_of(const std::string& yaml, const std::vector<std::string>& changes) {
  Diagnostics diagnostics;
  load(yaml, changes, diagnostics);
  return diagnostics.to_text();
}

}  // namespace sixty
