// No part of a scene is left out of its drawing, nor hidden by what is drawn after it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "gui/bench/layout.hpp"
#include "gui/bench/sight.hpp"
#include "gui/views/view.hpp"
#include "tests/gui/canvas.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

const Pixel kWindow{1280, 800};
constexpr double kLeastShare = 0.04;  // of its box, that a part changes where it is put down

constexpr double kLeastFull_a = 0.3;  // as in view.cpp: a smaller current is not the full light

using Vertices = std::vector<sf::Vertex>;

struct Distance {
  std::string scene;
  View view;
  bool folded = false;  ///< the strip of time, which leaves more room
};

class DrawnParts : public testing::TestWithParam<Distance> {
 protected:
  DrawnParts()
      : installation_(bench_scene({}, GetParam().scene.c_str())),
        session_(installation_),
        stage_(*installation_) {
    session_.seek(kSecond);
    stage_.look(session_);
  }

  static sf::FloatRect canvas() {
    Layout layout;
    layout.resize(kWindow);
    if (GetParam().folded) layout.fold();
    return layout.canvas(false);
  }
  Camera camera() const {
    Sight sight(GetParam().view);
    sight.travel(GetParam().view, stage_, std::nullopt, canvas());
    sight.arrive();
    return sight.camera();
  }
  bool is_to_be_seen(const Placed& placed) const {
    return GetParam().view == View::kBuilding || stands_in_case(installation_->parts[placed.part]);
  }
  Vertices whole(const Theme& theme) const {
    Painter painter(theme, camera(), kWindow);
    Look look;
    look.clear_low = {canvas().left, canvas().top};
    look.clear_high = look.clear_low + Pixel(canvas().width, canvas().height);
    paint_stage(stage_, *installation_, look, painter);
    return painter.mesh().vertices();
  }
  Vertices alone(const Theme& theme, const Placed& placed) const {
    Painter painter(theme, camera(), kWindow);
    painter.set_full_current(std::max(stage_.largest_current_a(), kLeastFull_a));
    painter.draw(placed.figure);
    return painter.mesh().vertices();
  }

  std::shared_ptr<const Installation> installation_;
  Session session_;
  Stage stage_;
};

/// How much of a box of the window these triangles change that are among all the others.
double changed_share(const Vertices& all, Vertices::const_iterator own, std::size_t count,
                     Pixel low, Pixel high) {
  const auto whole = [](float v, float most) {
    return static_cast<int>(std::floor(std::clamp(v, 0.0F, most)));
  };
  const sf::Vector2i corner(whole(low.x, kWindow.x), whole(low.y, kWindow.y));
  const sf::Vector2i opposite(whole(high.x + 1, kWindow.x), whole(high.y + 1, kWindow.y));
  Canvas with(corner, opposite - corner), without(corner, opposite - corner);
  with.put(all);
  without.put({all.begin(), own});
  without.put({own + static_cast<std::ptrdiff_t>(count), all.end()});
  const sf::Vector2i size = opposite - corner;
  return static_cast<double>(with.count_of_changed(without)) / (size.x * size.y);
}

TEST_P(DrawnParts, CanEachBeSeen) {
  const auto is_same = [](const sf::Vertex& a, const sf::Vertex& b) {
    return a.position == b.position && a.color == b.color;
  };
  for (const Theme* theme : {&dark_theme(), &light_theme()}) {
    const Vertices all = whole(*theme);
    for (const Placed& placed : stage_.parts()) {
      if (!is_to_be_seen(placed)) continue;
      const std::string& name = installation_->parts[placed.part].name;
      const Vertices own = alone(*theme, placed);
      ASSERT_FALSE(own.empty()) << name;
      const auto at = std::search(all.begin(), all.end(), own.begin(), own.end(), is_same);
      ASSERT_NE(at, all.end()) << name << " is not drawn";
      const auto [low, high] = placed.figure.bounds();
      const double share =
          changed_share(all, at, own.size(), camera().pixel(low), camera().pixel(high));
      EXPECT_GT(share, kLeastShare) << name << " is hidden";
    }
  }
}

std::vector<Distance> distances() {
  std::vector<Distance> all;
  for (const char* scene :
       {"bench-minimal", "corner-school", "technical-school", "college-large", "dry-cell-mill"}) {
    for (const bool folded : {false, true}) {
      all.push_back({scene, View::kBuilding, folded});
      all.push_back({scene, View::kCase, folded});
    }
  }
  return all;
}

INSTANTIATE_TEST_SUITE_P(Scenes, DrawnParts, testing::ValuesIn(distances()), [](const auto& made) {
  std::string name =
      made.param.scene + (made.param.view == View::kBuilding ? "_building" : "_case");
  if (made.param.folded) name += "_folded";
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Canvas, PutsTrianglesDownOneOverTheOther) {
  const auto square = [](sf::Color colour) {
    return Vertices{{{10, 10}, colour}, {{20, 10}, colour}, {{10, 20}, colour},
                    {{20, 10}, colour}, {{20, 20}, colour}, {{10, 20}, colour}};
  };
  const sf::Vector2i corner(8, 8), size(16, 16);
  const Canvas black(corner, size);
  Canvas canvas(corner, size);
  canvas.put(square(sf::Color::White));
  EXPECT_EQ(canvas.count_of_changed(black), 100);
  Canvas same(corner, size);
  same.put(square(sf::Color::Red));
  same.put(square(sf::Color::White));
  EXPECT_EQ(canvas.count_of_changed(same), 0);
  same.put(square(sf::Color(0, 0, 0, 128)));
  EXPECT_EQ(canvas.count_of_changed(same), 100);
}

/// However long the wheel is turned and the drawing dragged, there is something to be seen.
TEST(SightOfTheStage, WheelAndDragLeaveTheDrawingInSight) {
  const auto scene = bench_scene();
  Session session(scene);
  Stage stage(*scene);
  stage.look(session);
  const sf::FloatRect canvas(0, 44, 1280, 500);
  const Pixel middle(640, 294);
  const auto [low, high] = stage.building();
  for (const View view : {View::kBuilding, View::kCase}) {
    Sight sight(view);
    sight.travel(view, stage, std::nullopt, canvas);
    sight.arrive();
    const double home = sight.camera().zoom;
    for (int k = 0; k < 100; ++k) sight.zoom_at({3, 60}, -1);
    const Point size = high - low;
    EXPECT_GT(size.x * sight.camera().zoom, 0.1 * canvas.width);
    EXPECT_LT(sight.camera().zoom, home);
    for (int k = 0; k < 200; ++k) sight.zoom_at({3, 60}, 1);
    EXPECT_LT(sight.camera().zoom, 500 * home);
    for (const Pixel way : {Pixel(-1e6F, 0), Pixel(2e6F, 0), Pixel(0, -1e6F), Pixel(0, 2e6F)}) {
      sight.shift(way);
      const Point seen = sight.camera().point(middle);
      EXPECT_GE(seen.x, low.x - 1);
      EXPECT_LE(seen.x, high.x + 1);
      EXPECT_GE(seen.y, low.y - 1);
      EXPECT_LE(seen.y, high.y + 1);
    }
  }
}

}  // namespace
}  // namespace sixty::gui
