#include "gui/exhibit/house_run.hpp"

#include <cstdlib>
#include <utility>

namespace sixty::gui {
namespace {

constexpr double kFirstPatience_s = 0.05;  // a first picture is at once, and right a moment later

}  // namespace

HouseRun::HouseRun(const std::shared_ptr<const Installation>& installation, const TimeZone& zone,
                   WorldClock clock)
    : zone_(zone),
      clock_(std::move(clock)),
      follower_(installation->clock.start, clock_.rate),
      shown_(zone_.local(clock_.unix_ns())) {
  runner_ = std::make_unique<Runner>(installation, follower_.place(shown_), nullptr,
                                     std::vector<Action>{}, kFirstPatience_s);
  runner_->set_speed(clock_.rate);
  runner_->set_running(true);
  seen_ = runner_->see();
}

void HouseRun::follow() {
  shown_ = zone_.local(clock_.unix_ns());
  seen_ = runner_->see();
  const SimTime run = seen_.picture->at;
  const exhibit::Follower::Order order = follower_.follow(shown_, run);
  right_ = !order.jump;
  if (const bool hushed = follower_.is_hushed(); hushed != hushed_) {
    hushed_ = hushed;
    runner_->play_on(hushed_ ? nullptr : player_);
  }
  if (!order.jump) {
    runner_->set_speed(order.speed);
    return;
  }
  // It is on its way already: where it goes to stays right for as long as that takes.
  const SimTime close = static_cast<SimTime>(2 * clock_.rate) * exhibit::Follower::kFar;
  if (seen_.heads_for && std::abs(*order.jump - *seen_.heads_for) < close) return;
  runner_->set_speed(clock_.rate);
  runner_->jump(*order.jump);
}

void HouseRun::play_on(std::shared_ptr<Sound> player) {
  player_ = std::move(player);
  runner_->play_on(hushed_ ? nullptr : player_);
}

}  // namespace sixty::gui
