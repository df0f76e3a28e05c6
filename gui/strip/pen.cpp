#include "gui/strip/pen.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

// In a narrow column all lanes are looked at at each of its first instants; in a wide one only a
// while after them. Bars and strokes, which cost little, whenever something happens to their part.
constexpr int kMostSamples = 24;
constexpr SimTime kWide = 5 * kSecond;
// After something has begun, the currents are as they will stay.
constexpr SimTime kSettles = 250 * kMillisecond;

}  // namespace

Pen::Pen(Session& session, std::span<const LaneOf> lanes)
    : session_(session), lanes_(lanes), now_(lanes.size()), stirred_(lanes.size(), 0) {
  session_.set_sink(this);
}

Pen::~Pen() { session_.set_sink(nullptr); }

void Pen::write(SimTime to, std::vector<Column>& columns, std::vector<Edge>& edges) {
  edges_ = &edges;
  begins_ = true;
  samples_ = to - session_.now() >= kWide ? kMostSamples : 0;
  sample(true, session_.now());
  begins_ = false;
  while (session_.now() < to) {
    // As soon as something has happened it is known when the next look is due.
    const bool over = session_.run_until(to, [this] { return due_ != kNever; });
    if (over && due_ > to) break;
    session_.run_until(std::min(to, due_));
    if (session_.now() < due_) continue;
    due_ = kNever;
    sample(true, session_.now());
  }
  sample(true, session_.now());
  columns.insert(columns.end(), now_.begin(), now_.end());
}

void Pen::record(const TraceRecord& record) {
  for (std::size_t k = 0; k < lanes_.size(); ++k) {
    if (lanes_[k].part == record.part) stirred_[k] = 1;
  }
  any_stirred_ = true;
}

void Pen::settled(SimTime at) {
  if (!any_stirred_) return;
  sample(samples_ < kMostSamples, at);
  if (due_ == kNever) due_ = at + kSettles;
}

void Pen::sample(bool all, SimTime at) {
  if (all) ++samples_;
  for (std::size_t k = 0; k < lanes_.size(); ++k) {
    if (!all && (stirred_[k] == 0 || lanes_[k].form == Lane::kCurve)) continue;
    const auto value = static_cast<float>(value_of(session_, lanes_[k]));
    Column& c = now_[k];
    if (begins_) c = {value, value, value, value};
    // A state that cannot be told is none.
    const bool becomes = value != c.last && !(std::isnan(value) && std::isnan(c.last));
    if (becomes && lanes_[k].form != Lane::kCurve)
      edges_->push_back({at, static_cast<std::uint32_t>(k), value});
    c.last = value;
    c.least = std::min(c.least, value);
    c.most = std::max(c.most, value);
  }
  std::fill(stirred_.begin(), stirred_.end(), 0);
  any_stirred_ = false;
}

}  // namespace sixty::gui
