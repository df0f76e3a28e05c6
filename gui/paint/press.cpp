#include "gui/paint/press.hpp"

#include <SFML/OpenGL.hpp>
#include <algorithm>
#include <cmath>
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

/// By the display's own way to leave out what lies outside, in its whole pixels; it counts them
/// from the foot.
void Press::draw(const Mesh& mesh, const sf::FloatRect& box, sf::RenderTarget& target) const {
  const std::vector<sf::Vertex>& vertices = mesh.vertices();
  if (vertices.empty() || !target.setActive(true)) return;
  const sf::Vector2f seen = target.getView().getSize();
  const sf::Vector2f corner = target.getView().getCenter() - seen / 2.0F;
  const float across = static_cast<float>(target.getSize().x) / seen.x;
  const float down = static_cast<float>(target.getSize().y) / seen.y;
  const float left = std::floor((box.left - corner.x) * across);
  const float right = std::ceil((box.left + box.width - corner.x) * across);
  const float top = std::floor((box.top - corner.y) * down);
  const float foot = std::ceil((box.top + box.height - corner.y) * down);
  glEnable(GL_SCISSOR_TEST);
  glScissor(static_cast<int>(left), static_cast<int>(target.getSize().y) - static_cast<int>(foot),
            static_cast<int>(std::max(right - left, 0.0F)),
            static_cast<int>(std::max(foot - top, 0.0F)));
  target.draw(vertices.data(), vertices.size(), sf::Triangles, &across_);
  glDisable(GL_SCISSOR_TEST);
}

}  // namespace sixty::gui
