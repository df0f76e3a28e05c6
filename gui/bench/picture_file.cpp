#include "gui/bench/picture_file.hpp"

#include <SFML/Graphics/Image.hpp>
#include <SFML/Graphics/Texture.hpp>
#include <cerrno>
#include <filesystem>
#include <system_error>

#include "gui/tour/film.hpp"

namespace sixty::gui {
namespace {

/// The library does not tell why it cannot; what it asked of the system last does.
bool write_whole(const sf::Image& image, const std::string& path, std::string& error) {
  if (std::filesystem::path(path).extension() != ".png") {
    error = "cannot write " + path + ": its name does not end in .png";
    return false;
  }
  const std::string beside = path + kPartOfPicture;
  errno = 0;
  const bool written = image.saveToFile(beside) && is_whole_png(beside);
  std::error_code code(errno, std::generic_category());
  if (written) std::filesystem::rename(beside, path, code);
  if (written && !code) return true;
  error = "cannot write " + path + ": " + (code ? code.message() : "the disk may be full");
  std::filesystem::remove(beside, code);
  return false;
}

}  // namespace

bool save_picture(const sf::RenderWindow& window, const sf::IntRect& box, const std::string& path,
                  std::string& error) {
  sf::Texture texture;
  const sf::Vector2u s = window.getSize();
  if (!texture.create(s.x, s.y)) {
    error = "cannot write " + path + ": the window is too large for the graphics' memory";
    return false;
  }
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
  return write_whole(image, path, error);
}

bool save_picture(const sf::RenderWindow& window, const std::string& path, std::string& error) {
  const sf::Vector2u s = window.getSize();
  const sf::IntRect all(0, 0, static_cast<int>(s.x), static_cast<int>(s.y));
  return save_picture(window, all, path, error);
}

}  // namespace sixty::gui
