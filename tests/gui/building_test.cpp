// The building is the scene's own, its lines carry what the circuit says, and nothing covers a
// name.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "gui/paint/text_width.hpp"
#include "gui/views/remarks.hpp"
#include "gui/views/tip.hpp"
#include "gui/views/view.hpp"
#include "sim/base/text.hpp"
#include "sim/explain/way.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

struct Box {
  Pixel low, high;
  bool meets(const Box& o) const {
    return low.x < o.high.x && o.low.x < high.x && low.y < o.high.y && o.low.y < high.y;
  }
};

/// A scene at a moment, on the stage.
struct Shown {
  explicit Shown(const char* name, SimTime at = kSecond, const SceneChanges& changes = {})
      : installation(bench_scene(changes, name)), session(installation), stage(*installation) {
    session.seek(at);
    stage.look(session);
  }
  std::shared_ptr<const Installation> installation;
  Session session;
  Stage stage;

  Painter painted(Pixel size, const Look& look = {}) {
    Painter painter(dark_theme(), building_camera(stage, size), size);
    paint_stage(stage, *installation, look, painter);
    return painter;
  }
};

Box box_of(const Lettering& l) {
  const auto [low, high] = extent_of(l);
  return {low, high};
}

Box box_of(const Placed& placed, const Camera& camera) {
  const auto [low, high] = placed.figure.bounds();
  return {camera.pixel(low), camera.pixel(high)};
}

/// In the smallest window in which a house is of use, beside a strip of time.
TEST(Building, NamesItsRoomsAndItsLinesInASmallWindow) {
  Shown shown("technical-school");
  const Painter painter = shown.painted({800, 406});
  std::set<std::string> written;
  for (const Lettering& l : painter.letterings()) written.insert(l.text);
  std::set<std::string> rooms;
  for (const Chamber& room : shown.stage.chambers()) {
    const std::string name = words_of_key(room.name);
    const std::string number = name.substr(name.rfind(' ') + 1);  // where they stand closely
    EXPECT_TRUE(name.empty() || written.count(name) == 1 || written.count(number) == 1) << name;
    rooms.insert(name);
    if (number.size() > 1) rooms.insert(number);  // of fewer digits, other things have numbers too
  }
  for (const Lettering& l : painter.letterings())
    EXPECT_TRUE(rooms.count(l.text) == 0 || l.size >= 9) << l.text << " " << l.size;
  for (const Loop& loop : shown.stage.lines().loops())
    EXPECT_EQ(written.count(loop.name), 1U) << loop.name;
}

class BuildingOf : public testing::TestWithParam<const char*> {};

TEST_P(BuildingOf, HasItsRoomsSideBySide) {
  const Shown shown(GetParam());
  const std::vector<Chamber>& rooms = shown.stage.chambers();
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    EXPECT_LT(rooms[i].corner.x, rooms[i].opposite.x);
    EXPECT_LT(rooms[i].corner.y, rooms[i].opposite.y);
    for (std::size_t k = i + 1; k < rooms.size(); ++k) {
      const double x = std::min(rooms[i].opposite.x, rooms[k].opposite.x) -
                       std::max(rooms[i].corner.x, rooms[k].corner.x);
      const double y = std::min(rooms[i].opposite.y, rooms[k].opposite.y) -
                       std::max(rooms[i].corner.y, rooms[k].corner.y);
      EXPECT_FALSE(x > 1e-6 && y > 1e-6) << rooms[i].name << " and " << rooms[k].name;
    }
  }
  for (const Room& room : shown.installation->rooms)
    EXPECT_TRUE(std::any_of(rooms.begin(), rooms.end(), [&](const Chamber& c) {
      return c.name == room.name;
    })) << room.name;
}

TEST_P(BuildingOf, HasEveryPartInARoomThatIsItsOwn) {
  const Shown shown(GetParam());
  std::set<std::string> planned;
  for (const Room& room : shown.installation->rooms) planned.insert(room.name);
  for (PartId p = 0; p < shown.installation->parts.size(); ++p) {
    const PartInstance& part = shown.installation->parts[p];
    if (!stands_in_room(part)) continue;
    const Placed* placed = shown.stage.find(p);
    ASSERT_NE(placed, nullptr) << part.name;
    const std::pair<Point, Point> box = placed->figure.bounds();
    const auto& rooms = shown.stage.chambers();
    const auto room = std::find_if(rooms.begin(), rooms.end(), [&](const Chamber& c) {
      return box.first.x >= c.corner.x && box.second.x <= c.opposite.x &&
             box.first.y >= c.corner.y && box.second.y <= c.opposite.y;
    });
    ASSERT_NE(room, rooms.end()) << part.name;
    if (planned.count(part.room) != 0) {
      EXPECT_EQ(room->name, part.room) << part.name;
    }
  }
}

TEST_P(BuildingOf, HasNoPartUponAnotherNorUponTheCase) {
  const Shown shown(GetParam());
  const auto [low, high] = shown.stage.case_box();
  std::vector<std::pair<Point, Point>> boxes{{low, high}};
  for (const Placed& placed : shown.stage.parts()) {
    if (stands_in_room(shown.installation->parts[placed.part]))
      boxes.push_back(placed.figure.bounds());
  }
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t k = i + 1; k < boxes.size(); ++k) {
      const bool apart =
          boxes[i].second.x <= boxes[k].first.x || boxes[k].second.x <= boxes[i].first.x ||
          boxes[i].second.y <= boxes[k].first.y || boxes[k].second.y <= boxes[i].first.y;
      EXPECT_TRUE(apart) << i << " " << k;
    }
  }
}

TEST_P(BuildingOf, WritesNamesThatMeetNothing) {
  for (const Pixel size : {Pixel(1280, 756), Pixel(1920, 1036), Pixel(900, 560)}) {
    Shown shown(GetParam());
    const Painter painter = shown.painted(size);
    std::set<std::string> on_figures;
    for (const Placed& placed : shown.stage.parts()) {
      for (const Shape& shape : placed.figure.shapes()) {
        if (shape.form == Shape::Form::kText) on_figures.insert(placed.figure.text_of(shape));
      }
    }
    std::vector<Box> boxes;
    std::vector<std::string> texts;
    for (const Lettering& l : painter.letterings()) {
      if (on_figures.count(l.text) != 0 && !l.bold) continue;
      boxes.push_back(box_of(l));
      texts.push_back(l.text);
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      EXPECT_GE(boxes[i].low.x, 0);
      EXPECT_LE(boxes[i].high.x, size.x);
      for (std::size_t k = i + 1; k < boxes.size(); ++k)
        EXPECT_FALSE(boxes[i].meets(boxes[k])) << size.x << ": " << painter.letterings()[i].text
                                               << " and " << painter.letterings()[k].text;
    }
    const Camera& camera = painter.camera();
    std::set<std::string> rooms;
    for (const Chamber& room : shown.stage.chambers()) rooms.insert(words_of_key(room.name));
    for (const Lettering& l : painter.letterings()) {
      if (rooms.count(l.text) == 0) continue;
      const Box name = box_of(l);
      for (const Placed& placed : shown.stage.parts())
        EXPECT_FALSE(name.meets(box_of(placed, camera))) << l.text;
      for (const Stretch& stretch : shown.stage.lines().stretches()) {
        for (std::size_t k = 0; k + 1 < stretch.way.size(); ++k) {
          const Pixel a = camera.pixel(stretch.way[k]), b = camera.pixel(stretch.way[k + 1]);
          const Box wire{{std::min(a.x, b.x) - 2, std::min(a.y, b.y) - 2},
                         {std::max(a.x, b.x) + 2, std::max(a.y, b.y) + 2}};
          // In the shaft, wires go up beside the slabs, not across a name.
          EXPECT_FALSE(name.meets(wire)) << l.text;
        }
      }
    }
  }
}

TEST_P(BuildingOf, LightsALineOnlyWhileCurrentFlowsInIt) {
  Shown shown(GetParam(), 20 * kSecond);
  EXPECT_LT(shown.stage.lines().largest_a(), 1e-3);
  shown.session.seek(36 * kSecond);
  shown.stage.look(shown.session);
  const LoopLines& lines = shown.stage.lines();
  bool any = false;
  for (std::size_t k = 0; k < lines.loops().size(); ++k) {
    double sum = 0;
    for (const PartId p : lines.loops()[k].parts)
      sum += explain::drawn_a(shown.session, shown.session.build().parts[p]);
    EXPECT_EQ(lines.loop_a(k) > 1e-3, sum > 1e-3) << lines.loops()[k].name;
    if (!lines.loops()[k].series) {
      EXPECT_NEAR(lines.loop_a(k), sum, 1e-9);
    }
    any = any || sum > 0.05;
  }
  EXPECT_TRUE(any);
}

INSTANTIATE_TEST_SUITE_P(Scenes, BuildingOf,
                         testing::Values("bench-minimal", "corner-school", "technical-school",
                                         "college-large", "dry-cell-mill"));

const Loop& loop_of(const Stage& stage, const std::string& name, std::size_t& number) {
  const auto& loops = stage.lines().loops();
  const auto at =
      std::find_if(loops.begin(), loops.end(), [&](const Loop& loop) { return loop.name == name; });
  number = static_cast<std::size_t>(at - loops.begin());
  EXPECT_NE(at, loops.end()) << name;
  return *at;
}

TEST(Loops, AreThoseOfTheScene) {
  const Shown shown("technical-school");
  std::size_t k = 0;
  EXPECT_EQ(loop_of(shown.stage, "ground floor", k).parts.size(), 9U);
  EXPECT_FALSE(loop_of(shown.stage, "ground floor", k).series);
  EXPECT_EQ(loop_of(shown.stage, "second floor", k).parts.size(), 16U);
  EXPECT_TRUE(loop_of(shown.stage, "second floor", k).series);
  EXPECT_EQ(loop_of(shown.stage, "zone 4", k).number, 4);
  EXPECT_EQ(shown.stage.lines().loops().size(), 7U);
}

TEST(Loops, CurrentFallsAlongAParallelLineAndIsTheSameAllRoundASeriesOne) {
  const Shown shown("technical-school", 36 * kSecond);
  const LoopLines& lines = shown.stage.lines();
  std::size_t parallel = 0, series = 0;
  loop_of(shown.stage, "first floor", parallel);
  loop_of(shown.stage, "second floor", series);
  double least = 1e9, most = 0;
  for (std::size_t k = 0; k < lines.stretches().size(); ++k) {
    const Stretch& stretch = lines.stretches()[k];
    if (stretch.loop == series) {
      EXPECT_NEAR(lines.current_a(k), lines.loop_a(series), 1e-6 * lines.loop_a(series));
    }
    if (stretch.loop != parallel) continue;
    least = std::min(least, lines.current_a(k));
    most = std::max(most, lines.current_a(k));
    EXPECT_NEAR(lines.current_a(k) / lines.loop_a(parallel),
                static_cast<double>(stretch.beyond.size()) / 11, 0.03);
  }
  EXPECT_LT(least, most / 8);
}

TEST(Loops, AreToldApartByFormAsWellAsNumber) {
  const Shown shown("technical-school");
  const LoopLines& lines = shown.stage.lines();
  std::set<std::size_t> drawn;
  for (const Stretch& stretch : lines.stretches()) drawn.insert(stretch.loop);
  EXPECT_EQ(drawn.size(), lines.loops().size());
  std::set<std::size_t> tagged;
  for (const Tag& tag : lines.tags()) tagged.insert(tag.loop);
  EXPECT_EQ(tagged.size(), lines.loops().size());
}

/// One dial that is set wrong by hand at the start.
SceneChanges slow_dial(const char* minutes) {
  SceneChanges changes;
  changes.set.push_back(std::string("clock_103.wrong_at_start=") + minutes);
  return changes;
}

std::vector<Remarks::Flag> flags_of(const Shown& shown, const Painter& painter) {
  return Remarks(shown.stage, *shown.installation, false, painter).flags();
}

TEST(Wrongness, IsToldOfADialThatIsWrongAndOfNoOther) {
  Shown right("technical-school", 2 * kMinute);
  EXPECT_TRUE(flags_of(right, right.painted({1280, 756})).empty());
  Shown wrong("technical-school", 2 * kMinute, slow_dial("-3 min"));
  const auto flags = flags_of(wrong, wrong.painted({1280, 756}));
  ASSERT_EQ(flags.size(), 1U);
  EXPECT_EQ(flags[0].text, "3 min slow");
  EXPECT_EQ(flags[0].lean, Remark::Lean::kLow);
}

TEST(Wrongness, IsNotToldWhereFaultsAreHunted) {
  Shown wrong("technical-school", 2 * kMinute, slow_dial("-3 min"));
  Look look;
  look.hides_wrong = true;
  Painter hidden = wrong.painted({1280, 756}, look);
  Shown right("technical-school", 2 * kMinute);
  Painter sound = right.painted({1280, 756}, look);
  EXPECT_EQ(hidden.letterings().size(), sound.letterings().size());
  EXPECT_EQ(hidden.mesh().vertices().size(), sound.mesh().vertices().size());
  EXPECT_GT(wrong.painted({1280, 756}).mesh().vertices().size(), sound.mesh().vertices().size());
}

TEST(Wrongness, OfManyAlikeIsToldOnceWithTheirNumber) {
  EXPECT_EQ(merged_text({"3 min slow"}), "3 min slow");
  EXPECT_EQ(merged_text({"3 min slow", "3 min slow"}), "2 \u00d7 3 min slow");
  EXPECT_EQ(merged_text({"10 min slow", "2 min slow", "4 min slow"}), "3 \u00d7 2 to 10 min slow");
  SceneChanges changes;
  for (int k = 1; k <= 34; ++k)
    changes.set.push_back("north_" + std::to_string(k) + ".wrong_at_start=-5 min");
  Shown many("college-large", 2 * kMinute, changes);
  const auto flags = flags_of(many, many.painted({1280, 756}));
  std::size_t count = 0;
  for (const auto& flag : flags) count += flag.all.size();
  EXPECT_EQ(count, 34U);
  EXPECT_LE(flags.size(), 3U);
  for (std::size_t i = 0; i + 1 < flags.size(); ++i)
    EXPECT_FALSE((Box{flags[i].low, flags[i].high}).meets({flags[i + 1].low, flags[i + 1].high}));
}

TEST(Tip, NeverCoversThePartNorLeavesTheWindow) {
  const std::pair<Pixel, Pixel> window{{0, 44}, {1280, 800}};
  for (float x = 0; x < 1280; x += 61) {
    for (float y = 44; y < 800; y += 53) {
      const Box thing{{x - 30, y - 30}, {x + 30, y + 30}};
      const Tip tip = lay_tip("clock 103", "Coil and armature that move the hand on by one minute.",
                              13, {thing.low, thing.high}, {x, y}, window);
      EXPECT_FALSE(thing.meets({tip.low, tip.high})) << x << " " << y;
      EXPECT_GE(tip.low.x, 0);
      EXPECT_GE(tip.low.y, 44);
      EXPECT_LE(tip.high.x, 1280);
      EXPECT_LE(tip.high.y, 800);
    }
  }
}

TEST(Tip, TellsNameAndWhatThePartDoes) {
  Shown shown("technical-school");
  Look look;
  look.hovered = *shown.installation->find_id("bell_yard");
  const Painter painter = shown.painted({1280, 756}, look);
  const auto says = [&](const std::string& text) {
    return std::any_of(painter.letterings().begin(), painter.letterings().end(),
                       [&](const Lettering& l) { return l.text == text; });
  };
  EXPECT_TRUE(says("bell yard"));
}

/// What lies behind a face is drawn of the part that is looked at closely, and seen where it is
/// large.
TEST(PartDistance, ShowsFluxAndMeasuresOfTheLargePartOnly) {
  Shown shown("technical-school", 35 * kSecond + 500 * kMillisecond);
  for (const char* name : {"minute_relay", "clock_103", "bell_yard", "rewind"}) {
    const PartId part = *shown.installation->find_id(name);
    shown.stage.look(shown.session, part);
    const Figure& figure = shown.stage.find(part)->figure;
    const auto close = [](const Shape& shape) { return shape.close; };
    EXPECT_TRUE(std::any_of(figure.shapes().begin(), figure.shapes().end(), close)) << name;
    const Pixel size(1280, 756);
    EXPECT_TRUE(Painter(dark_theme(), part_camera(shown.stage, part, size), size).is_large(figure))
        << name;
    EXPECT_FALSE(Painter(dark_theme(), building_camera(shown.stage, size), size).is_large(figure))
        << name;
  }
}

TEST(PartDistance, DrawsFluxWhileThereIsFlux) {
  Shown shown("technical-school");
  const PartId relay = *shown.installation->find_id("minute_relay");
  const auto lines_of_flux = [&](SimTime at) {
    shown.session.seek(at);
    shown.stage.look(shown.session, relay);
    const auto& shapes = shown.stage.find(relay)->figure.shapes();
    return std::count_if(shapes.begin(), shapes.end(), [](const Shape& shape) {
      return shape.material == Material::kFlux && shape.form == Shape::Form::kLine;
    });
  };
  EXPECT_EQ(lines_of_flux(20 * kSecond), 0);
  EXPECT_GT(lines_of_flux(36 * kSecond), 8);
}

TEST(TipTest, ANoteBeginsALineOfItsOwn) {
  const Tip tip =
      lay_tip("relay", "Closes a contact.\nThe one by the door.", 13,
              {Pixel(100, 100), Pixel(120, 120)}, Pixel(110, 110), {Pixel(0, 0), Pixel(800, 600)});
  EXPECT_EQ(tip.lines, (std::vector<std::string>{"Closes a contact.", "The one by the door."}));
}

}  // namespace
}  // namespace sixty::gui
