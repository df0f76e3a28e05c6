#include "tests/cli/fake_run.hpp"

#include <gtest/gtest.h>

namespace sixty::cli {
namespace {

class NoPart final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "thing without any use";
    d.reading("volts", "V", "voltage");
    d.reading("lit", "", "whether it is lit");
    d.reading("blinks", "1", "how often it was lit");
    d.event(0, "lit", "it was lit");
  }
  std::unique_ptr<const Part> make(Builder&) const override { return nullptr; }
};

}  // namespace

FakeRun::FakeRun()
    : registry_(std::make_shared<Registry>()), installation_(std::make_shared<Installation>()) {
  static const NoPart type;
  registry_->add("thing", type, "models/thing");
  installation_->name = "two-lamps";
  installation_->title = "Two lamps";
  installation_->clock.start.day = 20458;  // 2026-01-05
  installation_->seed = 7;
  installation_->parts.resize(2);
  installation_->parts[0].name = "lamp";
  installation_->parts[1].name = "other";
  for (PartInstance& part : installation_->parts) part.kind = registry_->find("thing");
}

TraceJob FakeRun::job(const std::vector<std::string>& signals) {
  Diagnostics mistakes;
  TraceJob job;
  job.installation = installation_;
  job.signals = find_signals(signals, *installation_, mistakes);
  EXPECT_EQ(mistakes.to_text(), "");
  job.read = [this](const Signal& signal) { return now[signal.name]; };
  return job;
}

TraceRecord FakeRun::event(SimTime at, EventId id, EventId cause, PartId part,
                           std::string_view kind) {
  TraceRecord record;
  record.event.at = at;
  record.event.id = id;
  record.event.cause = cause;
  record.part = part;
  record.kind = kind;
  return record;
}

}  // namespace sixty::cli
