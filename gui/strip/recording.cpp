#include "gui/strip/recording.hpp"

#include <algorithm>
#include <limits>

#include "sim/instruments/laid.hpp"

namespace sixty::gui {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// One tile with the columns of both; where the channels' are not written yet, they are no numbers.
std::shared_ptr<const Tile> joined(const Tile* channels, std::size_t count, const Tile& others) {
  constexpr float kNot = std::numeric_limits<float>::quiet_NaN();
  auto tile = std::make_shared<Tile>();
  tile->from = others.from;
  tile->width = others.width;
  tile->lanes = count + others.lanes;
  for (std::size_t k = 0; k < others.filled(); ++k) {
    const bool known = channels != nullptr && k < channels->filled();
    for (std::size_t lane = 0; lane < count; ++lane)
      tile->columns.push_back(known ? channels->at(k, lane) : Column{kNot, kNot, kNot, kNot});
    for (std::size_t lane = 0; lane < others.lanes; ++lane)
      tile->columns.push_back(others.at(k, lane));
  }
  tile->edges = others.edges;
  for (Edge& edge : tile->edges) edge.lane += static_cast<std::uint32_t>(count);
  return tile;
}

}  // namespace

LaneOf lane_of_channel(const instruments::Order& order, std::string name) {
  const bool volts = order.kind == instruments::Order::Kind::kVolts;
  LaneSource source;
  source.name = std::move(name);
  source.plain = order.text;
  source.told = {volts ? "volts" : "amperes", "what a recorder's channel reads", volts ? "V" : "A",
                 Lane::kCurve, false};
  source.laid = instruments::leads_with(order, instruments::recorder_ohm(order));
  source.value = [order, leads = source.laid](Session& session) {
    const auto tapped = instruments::tapped_by(session, *leads);
    return tapped ? instruments::value_at(*tapped, order, session.circuit()) : kNone;
  };
  LaneOf lane;
  lane.part = order.leads.a.part;
  lane.source = std::make_shared<const LaneSource>(std::move(source));
  return lane;
}

bool Recording::set(const std::vector<LaneOf>& channels, std::vector<double> now) {
  now_ = std::move(now);
  if (channels == channels_) return false;
  channels_ = channels;
  laid_ = nullptr;
  if (channels_.empty()) scribe_.reset();
  return true;
}

void Recording::follow(const Log& log, const Scribe::Wanted& wanted) {
  if (channels_.empty() || log == nullptr) return;
  if (scribe_ == nullptr) scribe_ = std::make_unique<Scribe>(installation_);
  if (log != log_ || laid_ == nullptr) {
    auto with_leads = std::make_shared<std::vector<Action>>();
    for (const LaneOf& lane : channels_) {
      Action action;
      action.hookup = lane.source->laid;
      action.text = lane.source->plain;
      with_leads->push_back(std::move(action));
    }
    with_leads->insert(with_leads->end(), log->begin(), log->end());
    log_ = log;
    laid_ = std::move(with_leads);
  }
  scribe_->set_log(laid_);
  scribe_->set_lanes(channels_);
  scribe_->want(wanted);
}

void Recording::tell(std::vector<double>& values) const {
  for (std::size_t k = 0; k < channels_.size() && k < values.size(); ++k)
    values[k] = k < now_.size() ? now_[k] : kNone;
}

std::vector<std::shared_ptr<const Tile>> Recording::beside(
    std::vector<std::shared_ptr<const Tile>> others) const {
  if (channels_.empty()) return others;
  std::vector<std::shared_ptr<const Tile>> tiles;
  for (const auto& other : others) {
    const auto own = scribe_ == nullptr ? nullptr : scribe_->find(other->from, other->width);
    const bool fits = own != nullptr && own->lanes == channels_.size();
    tiles.push_back(joined(fits ? own.get() : nullptr, channels_.size(), *other));
  }
  return tiles;
}

void Recording::wait() const {
  if (scribe_ != nullptr) scribe_->wait();
}

}  // namespace sixty::gui
