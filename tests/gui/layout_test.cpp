// Where things lie in the window, and how many of its pixels there are to one of the drawing.
#include "gui/bench/layout.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "gui/bench/scale.hpp"

namespace sixty::gui {
namespace {

using Edge = Layout::Edge;

Layout layout_of(float width, float height) {
  Layout layout;
  layout.resize({width, height});
  return layout;
}

TEST(Layout, BarDrawingCardAndStripFillTheWindow) {
  for (const Pixel size : {Pixel(1280, 800), Pixel(1920, 1080), Pixel(3840, 2160)}) {
    const Layout layout = layout_of(size.x, size.y);
    EXPECT_FLOAT_EQ(layout.bar().height + layout.card().height + layout.strip().height, size.y);
    EXPECT_FLOAT_EQ(layout.canvas(true).width + layout.card().width, size.x);
    EXPECT_FLOAT_EQ(layout.canvas(false).width, size.x);
  }
}

TEST(Layout, InALowWindowTheStripIsFoldedAndNothingHasANegativeSize) {
  const Layout layout = layout_of(200, 60);
  EXPECT_TRUE(layout.is_folded());
  EXPECT_GE(layout.canvas(true).width, 1);
  EXPECT_GE(layout.canvas(true).height, 1);
}

TEST(Layout, AnEdgeThatIsDraggedStaysWhereItWasLetGoAndIsKept) {
  Layout layout = layout_of(1600, 1000);
  ASSERT_EQ(layout.edge_at({500, layout.strip().top}, false), Edge::kStrip);
  layout.drag(Edge::kStrip, {500, 600});
  EXPECT_FLOAT_EQ(layout.strip().top, 600);
  ASSERT_EQ(layout.edge_at({layout.card().left, 300}, true), Edge::kCard);
  EXPECT_EQ(layout.edge_at({layout.card().left, 300}, false), std::nullopt);
  layout.drag(Edge::kCard, {1000, 300});
  EXPECT_FLOAT_EQ(layout.card().left, 1000);
  Settings settings;
  layout.give(settings);
  Layout other = layout_of(1600, 1000);
  other.take(settings);
  EXPECT_FLOAT_EQ(other.strip().top, 600);
  EXPECT_FLOAT_EQ(other.card().left, 1000);
}

TEST(Layout, WhatLiesOverARoomTakesTheCornerWhereItHidesLeast) {
  const sf::FloatRect room(100, 50, 800, 500);
  const Pixel size(400, 200);
  const auto corner = [&](Corner now, const std::vector<sf::FloatRect>& boxes) {
    return freest_corner(now, room, size, 10, boxes);
  };
  const sf::FloatRect wheel(120, 300, 200, 200), relay(700, 60, 100, 100);
  EXPECT_EQ(corner(Corner::kLowerLeft, {}), Corner::kLowerLeft);
  EXPECT_EQ(corner(Corner::kLowerLeft, {relay}), Corner::kLowerLeft);
  EXPECT_EQ(corner(Corner::kLowerLeft, {wheel, relay}), Corner::kLowerRight);
  EXPECT_EQ(corner(Corner::kUpperRight, {relay}), Corner::kLowerLeft);
  // A little that is hidden is no reason to move, nor is what is not seen anyway.
  EXPECT_EQ(corner(Corner::kLowerLeft, {{110, 100, 100, 270}}), Corner::kLowerLeft);
  EXPECT_EQ(corner(Corner::kLowerLeft, {{-500, 300, 400, 200}}), Corner::kLowerLeft);
}

TEST(Layout, WhatLiesInACornerLiesWithinTheRoom) {
  const sf::FloatRect room(100, 50, 800, 500);
  for (const Corner corner :
       {Corner::kLowerLeft, Corner::kLowerRight, Corner::kUpperRight, Corner::kUpperLeft}) {
    const sf::FloatRect box = box_in(corner, room, {400, 200}, 10);
    sf::FloatRect inside;
    ASSERT_TRUE(box.intersects(room, inside));
    EXPECT_EQ(inside, box);
  }
}

TEST(Layout, AnEdgeIsNeverDraggedOutOfTheWindow) {
  Layout layout = layout_of(1600, 1000);
  for (const float far : {-500.0F, 5000.0F}) {
    layout.drag(Edge::kStrip, {far, far});
    layout.drag(Edge::kCard, {far, far});
    EXPECT_GT(layout.canvas(true).width, 400);
    EXPECT_GT(layout.canvas(true).height, 200);
    EXPECT_GE(layout.strip().height, 150);
    EXPECT_GE(layout.card().width, 240);
  }
}

TEST(Scale, TheCommandLineGoesBeforeTheSettings) {
  EXPECT_FLOAT_EQ(chosen_scale(2, 1.5), 2);
  EXPECT_FLOAT_EQ(chosen_scale(0, 1.5), 1.5);
  EXPECT_FLOAT_EQ(chosen_scale(100, 0), 4);
}

TEST(Scale, KeysGoUpAndDownTheSameStepsAndEndSomewhere) {
  EXPECT_FLOAT_EQ(next_scale(next_scale(1, 1), -1), 1);
  EXPECT_FLOAT_EQ(next_scale(1.1F, 1), 1.15F);
  EXPECT_FLOAT_EQ(next_scale(4, 1), 4);
  EXPECT_FLOAT_EQ(next_scale(0.75F, -1), 0.75F);
}

TEST(Scale, PlacesOfAPointerAreThoseOfTheDrawing) {
  sf::Event event{};
  event.type = sf::Event::MouseButtonPressed;
  event.mouseButton = {sf::Mouse::Left, 300, 120};
  const sf::Event other = in_drawing(event, 1.5F);
  EXPECT_EQ(other.mouseButton.x, 200);
  EXPECT_EQ(other.mouseButton.y, 80);
  EXPECT_EQ(in_window({10, 20, 30, 40}, 2), sf::IntRect(20, 40, 60, 80));
}

}  // namespace
}  // namespace sixty::gui
