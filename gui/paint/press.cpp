#include "gui/paint/press.hpp"

#include <SFML/OpenGL.hpp>
#include <algorithm>
#include <stdexcept>

namespace sixty::gui {
namespace {

/// The same as share_across().
constexpr const char* kAcross = R"(
void main() {
  vec2 across = gl_TexCoord[0].xy;
  float share = clamp(1.0 + across.y - abs(across.x), 0.0, 1.0);
  gl_FragColor = vec4(gl_Color.rgb, gl_Color.a * share);
}
)";

}  // namespace

void Press::open() {
  if (!sf::Shader::isAvailable() || !across_.loadFromMemory(kAcross, sf::Shader::Fragment))
    throw std::runtime_error("the display has no shaders (OpenGL 2), which lines are drawn with");
}

/// The display's own way to leave out what lies outside; it counts from the foot.
void Press::draw(const Mesh& mesh, const sf::FloatRect& box, sf::RenderTarget& target) const {
  const std::vector<sf::Vertex>& vertices = mesh.vertices();
  if (vertices.empty() || !target.setActive(true)) return;
  const sf::Vector2i low = target.mapCoordsToPixel({box.left, box.top});
  const sf::Vector2i high = target.mapCoordsToPixel({box.left + box.width, box.top + box.height});
  glEnable(GL_SCISSOR_TEST);
  glScissor(low.x, static_cast<int>(target.getSize().y) - high.y, std::max(high.x - low.x, 0),
            std::max(high.y - low.y, 0));
  target.draw(vertices.data(), vertices.size(), sf::Triangles, &across_);
  glDisable(GL_SCISSOR_TEST);
}

}  // namespace sixty::gui
