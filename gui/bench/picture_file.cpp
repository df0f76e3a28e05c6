#include "gui/bench/picture_file.hpp"

#include <SFML/Graphics/Image.hpp>
#include <SFML/Graphics/Texture.hpp>
#include <filesystem>
#include <system_error>

#include "gui/tour/film.hpp"

namespace sixty::gui {
namespace {

/// The library does not tell where the disk is full.
bool write_whole(const sf::Image& image, const std::string& path) {
  if (std::filesystem::path(path).extension() != ".png") return false;
  const std::string beside = path + kPartOfPicture;
  std::error_code error;
  if (image.saveToFile(beside) && is_whole_png(beside)) {
    std::filesystem::rename(beside, path, error);
    if (!error) return true;
  }
  std::filesystem::remove(beside, error);
  return false;
}

}  // namespace

bool save_picture(const sf::RenderWindow& window, const sf::IntRect& box, const std::string& path) {
  sf::Texture texture;
  const sf::Vector2u s = window.getSize();
  if (!texture.create(s.x, s.y)) return false;
  texture.update(window);
  const sf::Image whole = texture.copyToImage();
  sf::Image image;
  image.create(static_cast<unsigned>(box.width), static_cast<unsigned>(box.height));
  image.copy(whole, 0, 0, box);
  for (unsigned y = 0; y < image.getSize().y; ++y) {
    for (unsigned x = 0; x < image.getSize().x; ++x) {
      sf::Color c = image.getPixel(x, y);
      c.a = 255;
      image.setPixel(x, y, c);
    }
  }
  return write_whole(image, path);
}

bool save_picture(const sf::RenderWindow& window, const std::string& path) {
  const sf::Vector2u s = window.getSize();
  return save_picture(window, {0, 0, static_cast<int>(s.x), static_cast<int>(s.y)}, path);
}

}  // namespace sixty::gui
