// What stands on the stage is what the simulator's state says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "gui/views/view.hpp"
#include "tests/models/outlines.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

std::shared_ptr<const Installation> scene(const char* name) { return bench_scene({}, name); }

const Figure& figure_of(const Stage& stage, const Installation& installation,
                        const std::string& name) {
  const auto found = std::find_if(
      stage.parts().begin(), stage.parts().end(),
      [&](const Placed& placed) { return installation.parts[placed.part].name == name; });
  EXPECT_NE(found, stage.parts().end()) << name;
  return found->figure;
}

/// Whether a piece of one lies on a piece of the other, for more than where they cross.
bool run_together(const Run& a, const Run& b) {
  const auto overlap_of = [](double a0, double a1, double b0, double b1) {
    return std::min(std::max(a0, a1), std::max(b0, b1)) -
           std::max(std::min(a0, a1), std::min(b0, b1));
  };
  for (std::size_t i = 0; i + 1 < a.way.size(); ++i) {
    for (std::size_t k = 0; k + 1 < b.way.size(); ++k) {
      const double x = overlap_of(a.way[i].x, a.way[i + 1].x, b.way[k].x, b.way[k + 1].x);
      const double y = overlap_of(a.way[i].y, a.way[i + 1].y, b.way[k].y, b.way[k + 1].y);
      if ((x > 1e-9 && y > -1e-9) || (y > 1e-9 && x > -1e-9)) return true;
    }
  }
  return false;
}

class StageOf : public testing::TestWithParam<const char*> {};

TEST_P(StageOf, HasAFigureOfEveryPartThatCanBeSeen) {
  const auto installation = scene(GetParam());
  Session session(installation);
  Stage stage(*installation);
  session.seek(5 * kSecond);
  stage.look(session);
  std::set<PartId> seen;
  for (const Placed& placed : stage.parts()) {
    EXPECT_FALSE(placed.figure.shapes().empty()) << installation->parts[placed.part].name;
    seen.insert(placed.part);
  }
  for (PartId p = 0; p < installation->parts.size(); ++p) {
    const PartInstance& part = installation->parts[p];
    const bool can_be_seen = part.kind->declaration.stand.where != Stand::Where::kNowhere;
    EXPECT_EQ(seen.count(p) != 0, can_be_seen) << part.name;
  }
}

/// Where two nets ran along one line, a coil would seem to be bridged.
TEST_P(StageOf, LeadsNoTwoNetsAlongOneLine) {
  const auto installation = scene(GetParam());
  Session session(installation);
  Stage stage(*installation);
  session.seek(kSecond);
  stage.look(session);
  const auto& runs = stage.wiring().runs();
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (std::size_t k = i + 1; k < runs.size(); ++k) {
      if (runs[i].net == runs[k].net) continue;
      EXPECT_FALSE(run_together(runs[i], runs[k])) << i << " " << k;
    }
  }
}

TEST(Stage, AFusesWiresAreJoinedAtItsTwoEnds) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  stage.look(session);
  const Figure& fuse = figure_of(stage, *installation, "main_fuse");
  const auto [low, high] = fuse.bounds();
  const double from_end = 0.15 * (high.y - low.y);
  EXPECT_LT(fuse.terminals().at("a").y, low.y + from_end);
  EXPECT_GT(fuse.terminals().at("b").y, high.y - from_end);
}

INSTANTIATE_TEST_SUITE_P(Scenes, StageOf,
                         testing::Values("bench-minimal", "corner-school", "technical-school",
                                         "college-large", "dry-cell-mill"));

/// Where the plunger's rod ends: it is the longest brass line of the figure.
double rod_end(const Figure& figure) {
  double end = 0, longest = 0;
  for (const Shape& shape : figure.shapes()) {
    if (shape.form != Shape::Form::kLine || shape.material != Material::kBrass) continue;
    const auto points = figure.points(shape);
    const double length = std::fabs(points.back().x - points.front().x);
    if (length <= longest) continue;
    longest = length;
    end = points.back().x;
  }
  return end;
}

TEST(Stage, PlungerIsDrawnWhereItIs) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  const double drawn_stroke = 26 * stage.case_pose().scale;
  session.seek(4 * kSecond);
  stage.look(session);
  const double open_gap = read(session, "rewind.gap");
  const double open_end = rod_end(figure_of(stage, *installation, "rewind"));
  bool moved = false;
  for (int ms = 0; ms < 120; ms += 4) {
    session.seek(5 * kSecond + ms * kMillisecond);
    stage.look(session);
    const double gone = (open_gap - read(session, "rewind.gap")) / open_gap;
    moved = moved || gone > 0.2;
    const double drawn = rod_end(figure_of(stage, *installation, "rewind")) - open_end;
    EXPECT_NEAR(drawn, gone * drawn_stroke, 0.5) << ms;
  }
  EXPECT_TRUE(moved);
}

TEST(Stage, FeedingWiresCarryWhatTheCoilDraws) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  session.seek(4 * kSecond);
  stage.look(session);
  EXPECT_LT(stage.largest_current_a(), 0.01);
  session.seek(5 * kSecond + 500 * kMillisecond);
  stage.look(session);
  const double current = read(session, "rewind.current");
  EXPECT_GT(current, 0.5);
  EXPECT_NEAR(stage.largest_current_a(), current, 0.05 * stage.largest_current_a());
}

/// The drawn wheel and pallets of a running clock. 168 units of the case's board are the wheel's
/// 20.5 mm.
class DrawnEscapement : public testing::TestWithParam<const char*> {};

TEST_P(DrawnEscapement, WheelAndPalletsNeverOverlapThroughBeats) {
  SceneChanges changes;
  changes.set.push_back(std::string("movement.crutch_offset=") + GetParam());
  const auto installation = bench_scene(changes);
  Session session(installation);
  Stage stage(*installation);
  const double units_per_mm = 168 / 20.5 * stage.case_pose().scale;
  for (int ms = 0; ms < 2000; ms += 4) {
    session.seek(20 * kSecond + ms * kMillisecond);
    stage.look(session);
    const Figure& figure = figure_of(stage, *installation, "movement");
    std::vector<Point> teeth;
    std::vector<std::vector<Point>> arms;
    for (const Shape& shape : figure.shapes()) {
      const auto points = figure.points(shape);
      if (shape.form == Shape::Form::kBand)
        teeth.assign(points.begin(),
                     points.begin() + static_cast<std::ptrdiff_t>(points.size() / 2));
      if (shape.form == Shape::Form::kArea && points.size() > 50)
        arms.emplace_back(points.begin(), points.end());
    }
    ASSERT_EQ(arms.size(), 2U);
    for (const std::vector<Point>& arm : arms) {
      EXPECT_LE(overlap(teeth, arm) / units_per_mm, 0.05) << ms << " ms";
      EXPECT_LE(overlap(arm, teeth) / units_per_mm, 0.05) << ms << " ms";
    }
  }
}

/// In beat, and out of it either way.
INSTANTIATE_TEST_SUITE_P(Crutch, DrawnEscapement, testing::Values("0 deg", "0.3 deg", "-0.3 deg"));

TEST(Stage, WheelStandsBetweenBeatsAndStepsAtThem) {
  const auto installation = scene("bench-minimal");
  Session session(installation);
  Stage stage(*installation);
  const auto turn_at = [&](SimTime t) {
    session.seek(t);
    stage.look(session);
    return figure_of(stage, *installation, "movement").anchors().at("escape_arbor").turn_rad;
  };
  const double degree = 3.14159265358979 / 180;
  for (int second = 10; second < 16; ++second) {
    const double stands = turn_at(second * kSecond + 300 * kMillisecond);
    EXPECT_NEAR(turn_at(second * kSecond + 500 * kMillisecond), stands, 1e-12);
    const double next = turn_at((second + 1) * kSecond + 300 * kMillisecond);
    EXPECT_NEAR((next - stands) / degree, 6, 1e-9);
  }
}

/// Also where boxes of smaller parts lie, but none of their pieces.
TEST(Stage, APointerOnTheWheelBesideAnArmIsOnTheMovement) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  session.seek(10 * kSecond + 300 * kMillisecond);
  stage.look(session);
  const PartId movement = installation->find_id("movement").value();
  const Figure& figure = stage.find(movement)->figure;
  const auto& shapes = figure.shapes();
  const auto wheel = std::find_if(shapes.begin(), shapes.end(), [](const Shape& shape) {
    return shape.form == Shape::Form::kBand;
  });
  ASSERT_NE(wheel, shapes.end());
  const auto in_anothers_box = [&](Point p) {
    return std::any_of(stage.parts().begin(), stage.parts().end(), [&](const Placed& placed) {
      const auto [low, high] = placed.figure.bounds();
      return placed.part != movement && p.x >= low.x && p.x <= high.x && p.y >= low.y &&
             p.y <= high.y;
    });
  };
  const auto points = figure.points(*wheel);
  const std::size_t half = points.size() / 2;
  std::size_t doubtful = 0, on_it = 0;
  for (std::size_t k = 0; k < half; ++k) {
    const Point on_rim = points[k] * 0.1 + points[half + k] * 0.9;  // below the teeth
    if (!in_anothers_box(on_rim)) continue;
    ++doubtful;
    const Placed* found = stage.at(on_rim);
    if (found != nullptr && found->part == movement) ++on_it;
  }
  ASSERT_GT(doubtful, 0U);
  EXPECT_GT(on_it, doubtful / 2);
}

/// Of what is too small for rings, from where it is looked at, no terminal is met.
TEST(Stage, TerminalsAreMetWhereTheyHaveRoomForARing) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  stage.look(session);
  const Figure& relay = figure_of(stage, *installation, "minute_relay");
  const Figure& clock = figure_of(stage, *installation, "clock_104");
  const double far_off = ring_of(clock) * 0.9;
  EXPECT_LT(ring_of(relay), far_off);
  const auto found = stage.terminal_at(clock.terminals().at("a"), 1, far_off);
  ASSERT_TRUE(found.has_value());
  EXPECT_EQ(installation->parts[found->first].name, "clock_104");
  EXPECT_EQ(found->second, "a");
  const Point coil = relay.terminals().at("coil_a");
  EXPECT_FALSE(stage.terminal_at(coil, 1, far_off).has_value());
  EXPECT_TRUE(stage.terminal_at(coil, 1, ring_of(relay)).has_value());
}

TEST(Stage, RingsRoundTerminalsKeepApart) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  stage.look(session);
  for (const Placed& placed : stage.parts()) {
    const auto& terminals = placed.figure.terminals();
    for (auto a = terminals.begin(); a != terminals.end(); ++a) {
      for (auto b = std::next(a); b != terminals.end(); ++b) {
        const Point way = a->second - b->second;
        EXPECT_GT(std::hypot(way.x, way.y), 2 * ring_of(placed.figure))
            << installation->parts[placed.part].name;
      }
    }
  }
}

/// However many boxes overlap there.
TEST(Stage, APointerOnAPieceIsOnThatPartOrOneInFront) {
  const auto installation = scene("technical-school");
  Session session(installation);
  Stage stage(*installation);
  session.seek(10 * kSecond);
  stage.look(session);
  const auto& parts = stage.parts();
  for (std::size_t k = 0; k < parts.size(); ++k) {
    for (const Shape& shape : parts[k].figure.shapes()) {
      const bool is_solid = shape.form == Shape::Form::kDisc || shape.form == Shape::Form::kLine;
      if (!is_solid || shape.close || shape.ghost || shape.material >= Material::kFlux) continue;
      const Placed* found = stage.at(parts[k].figure.points(shape)[0]);
      ASSERT_NE(found, nullptr);
      EXPECT_GE(found - parts.data(), static_cast<std::ptrdiff_t>(k))
          << installation->parts[parts[k].part].name;
    }
  }
}

}  // namespace
}  // namespace sixty::gui
