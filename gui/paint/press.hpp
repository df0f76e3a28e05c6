#pragma once

#include <SFML/Graphics/RenderTarget.hpp>
#include <SFML/Graphics/Shader.hpp>

#include "gui/paint/mesh.hpp"

namespace sixty::gui {

/// Puts meshes down on a target, with the smooth edges of their lines.
class Press {
 public:
  /// Order: a window is open. Errors: throws std::runtime_error where the display cannot do it.
  void open();
  /// Nothing is put down outside the box, in the pixels of the mesh. Order: open() first.
  void draw(const Mesh& mesh, const sf::FloatRect& box, sf::RenderTarget& target) const;

 private:
  sf::Shader across_;
};

}  // namespace sixty::gui
