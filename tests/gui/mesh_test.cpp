// Lines are smooth at their edges, and what nobody sees makes no triangles.
#include <gtest/gtest.h>

#include <array>

#include "gui/paint/painter.hpp"
#include "tests/gui/canvas.hpp"

namespace sixty::gui {
namespace {

/// Of the colour, that is seen at a place of a mesh of triangles on black.
float share_at(const Mesh& mesh, int x, int y) {
  Canvas canvas({x, y}, {1, 1});
  canvas.put(mesh.vertices());
  return canvas.brightness() / 255;
}

Mesh level_line(float width) {
  Mesh mesh;
  const std::array<Pixel, 2> way{Pixel(0, 10.5F), Pixel(20, 10.5F)};
  mesh.stroke(way, width, false, [](Pixel) { return sf::Color::White; });
  return mesh;
}

TEST(Strokes, AreFullInTheirMiddleAndFadeWithinAPixelOfTheirEdge) {
  const Mesh mesh = level_line(4);
  EXPECT_NEAR(share_at(mesh, 10, 10), 1, 0.01);
  EXPECT_NEAR(share_at(mesh, 10, 11), 1, 0.01);
  EXPECT_NEAR(share_at(mesh, 10, 12), 0.5, 0.01);  // 2 px off, where the line ends
  EXPECT_NEAR(share_at(mesh, 10, 13), 0, 0.01);
}

TEST(Strokes, ThinnerThanAPixelLoseColourInsteadOfWidth) {
  EXPECT_NEAR(share_at(level_line(1), 10, 10), 1, 0.01);
  EXPECT_NEAR(share_at(level_line(0.4F), 10, 10), 0.4, 0.01);
}

TEST(Strokes, TakeOneStripForEachPieceOfTheirWay) {
  EXPECT_EQ(level_line(4).vertices().size(), 6U);
}

TEST(Shines, FadeFromTheirMiddleToHalfTheirWidth) {
  Mesh mesh;
  mesh.shine(std::array{Pixel(0, 10.5F), Pixel(20, 10.5F)}, 16, sf::Color::White);
  EXPECT_NEAR(share_at(mesh, 10, 10), 1, 0.01);
  EXPECT_NEAR(share_at(mesh, 10, 14), 0.5, 0.01);
  EXPECT_NEAR(share_at(mesh, 10, 18), 0, 0.01);
}

class ShownOnly : public testing::Test {
 protected:
  std::size_t triangles_of_disc_at(Point centre) {
    Figure figure;
    figure.disc(Material::kBrass, centre, 8, 2);
    Painter painter(dark_theme(), Camera{}, {400, 300});
    painter.show_only({100, 50}, {300, 250});
    painter.draw(figure);
    return painter.mesh().vertices().size() / 3;
  }
};

TEST_F(ShownOnly, APieceThatReachesIntoWhatIsShownIsDrawn) {
  EXPECT_GT(triangles_of_disc_at({200, 150}), 0U);
  EXPECT_GT(triangles_of_disc_at({93, 150}), 0U);
  EXPECT_GT(triangles_of_disc_at({200, 48}), 0U);  // its shadow falls into it at least
}

TEST_F(ShownOnly, APieceOutsideOfItMakesNoTriangles) {
  for (const Point away : {Point{50, 150}, Point{350, 150}, Point{200, 10}, Point{200, 290}})
    EXPECT_EQ(triangles_of_disc_at(away), 0U) << away.x << ", " << away.y;
}

}  // namespace
}  // namespace sixty::gui
