#include "gui/tour/walk.hpp"

#include <cmath>
#include <utility>

#include "gui/bench/panel.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr double kPictureAt = 0.6;  // share of a step at which a picture of it is taken

std::vector<double> lasts_of(const Tour& tour) {
  std::vector<double> lasts_s;
  for (const TourStep& step : tour.steps) lasts_s.push_back(step.lasts_s);
  return lasts_s;
}

bool is_press(const sf::Event& event) {
  return event.type == sf::Event::MouseButtonPressed || event.type == sf::Event::TouchBegan ||
         event.type == sf::Event::MouseWheelScrolled || event.type == sf::Event::KeyPressed;
}

}  // namespace

View view_of(Scope scope) {
  switch (scope) {
    case Scope::kBuilding:
      return View::kBuilding;
    case Scope::kPart:
      return View::kPart;
    case Scope::kCase:
      break;
  }
  return View::kCase;
}

Walk::Walk(std::shared_ptr<const Tour> tour, Guide::Way way, std::size_t first)
    : tour_(std::move(tour)), guide_(lasts_of(*tour_), way, first) {}

bool Walk::follow(Bench& bench, double wall_s) {
  guide_.pass(wall_s);
  Runner& runner = bench.runner();
  const bool begins = guide_.begun() != begun_;
  if (begins) {
    begun_ = guide_.begun();
    bench.select(std::nullopt);
    bench.hover(std::nullopt, {-1, -1});
    if (step().part) runner.watch(*step().part);  // it is drawn as seen from close by
    runner.begin(tour_->log, step().at);
    runner.set_speed(step().speed);
    runner.set_stretch(step().stretch);
    runner.set_running(true);
  } else if (shows() && !guide_.runs() && bench.seen().running) {
    runner.set_running(false);
  }
  return begins;
}

void Walk::settle(Bench& bench) {
  begun_ = guide_.begun();
  const double gone_s = kPictureAt * step().lasts_s;
  guide_.pass(gone_s);
  bench.runner().begin(tour_->log, step().at);
  bench.runner().set_speed(step().speed);
  bench.runner().jump(step().at + std::llround(gone_s * step().speed * 1e9));
}

bool Walk::takes(const sf::Event& event, Bench& bench) {
  using K = sf::Keyboard;
  if (!is_press(event)) return false;
  const bool is_key = event.type == sf::Event::KeyPressed;
  const K::Key key = is_key ? event.key.code : K::Unknown;
  const bool shift = is_key && event.key.shift;
  if (!shows()) {
    guide_.touch();
    return false;
  }
  if (!shift && (key == K::Right || key == K::PageDown || (key == K::Space && guide_.talks()))) {
    guide_.next();
    return true;
  }
  if (!shift && (key == K::Left || key == K::PageUp)) {
    guide_.back();
    return true;
  }
  if (guide_.talks()) return false;
  stand(bench);
  return true;
}

void Walk::stand(Bench& bench) {
  guide_.touch();
  bench.runner().set_running(false);
}

std::vector<LaneOf> Walk::lanes_and_readings(std::vector<LaneOf> lanes,
                                             const Installation& installation) {
  first_reading_ = lanes.size();
  for (const ReadingOf& reading : tour_->readings) lanes.push_back(lane_of(installation, reading));
  return lanes;
}

bool Walk::show(const sf::FloatRect& box) {
  constexpr float kAbove = 16;
  ImGui::SetNextWindowPos({box.left + box.width / 2, box.top + box.height - kAbove},
                          ImGuiCond_Always, {0.5F, 1});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
  ImGui::Begin("tour", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_AlwaysAutoResize |
                   ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoFocusOnAppearing);
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(tr("The tour waits. Look around, press any part."));
  ImGui::SameLine(0, 20);
  if (ImGui::Button(tr("Go on"))) guide_.go_on();
  ImGui::SameLine();
  const bool leaves = ImGui::Button(tr("Leave the tour"));
  ImGui::End();
  ImGui::PopStyleVar();
  return !leaves;
}

}  // namespace sixty::gui
