#include "sim/cli/runner.hpp"

#include <algorithm>

#include "sim/cli/interrupt.hpp"
#include "sim/cli/progress.hpp"
#include "sim/cli/stopwatch.hpp"

namespace sixty::cli {
namespace {

constexpr double kShortSlice_s = 0.02, kLongSlice_s = 0.1;

class Runner {
 public:
  Runner(Session& session, const RunPlan& plan)
      : session_(session), plan_(plan), progress_(plan.progress, session.installation()) {}

  RunEnd run() {
    to(0);
    if (plan_.writer != nullptr) plan_.writer->settled(0);
    RunEnd end = after_step();
    while (end == RunEnd::kDone && session_.now() < plan_.until) {
      to(next_stop());
      end = after_step();
    }
    return end;
  }

 private:
  SimTime next_stop() const {
    const SimTime left = plan_.until - session_.now();
    const SimTime stop = session_.now() + std::min(left, slice_);
    return plan_.sample > 0 ? std::min(stop, next_sample_) : stop;
  }

  void to(SimTime time) {
    const Stopwatch watch;
    const bool there = session_.run_until(time, [this] { return ends_early() != RunEnd::kDone; });
    fit_slice(watch.seconds());
    if (there && plan_.sample > 0 && time == next_sample_) sample(time);
  }

  void sample(SimTime time) {
    plan_.writer->sample(time);
    next_sample_ = time > plan_.until - plan_.sample ? kNever : time + plan_.sample;
  }

  void fit_slice(double took_s) {
    if (took_s < kShortSlice_s) slice_ = std::min(2 * slice_, kWeek);
    if (took_s > kLongSlice_s) slice_ = std::max(slice_ / 2, kMicrosecond);
  }

  RunEnd ends_early() const {
    if (plan_.writer != nullptr && plan_.writer->failed()) return RunEnd::kWriterFailed;
    return interrupted() ? RunEnd::kInterrupted : RunEnd::kDone;
  }

  RunEnd after_step() {
    progress_.show(session_.now(), plan_.until);
    return ends_early();
  }

  Session& session_;
  const RunPlan& plan_;
  Progress progress_;
  SimTime slice_ = kSecond;
  SimTime next_sample_ = 0;
};

}  // namespace

RunEnd run_session(Session& session, const RunPlan& plan) {
  if (plan.sink != nullptr) session.set_sink(plan.sink);
  return Runner(session, plan).run();
}

}  // namespace sixty::cli
