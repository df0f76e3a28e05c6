#include "sim/diagnose/plan_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "sim/base/math.hpp"
#include "sim/base/text.hpp"
#include "sim/diagnose/markup.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

// Units: of the picture, about a pixel of a screen each.
constexpr double kWide = 760, kMargin = 12, kTitle = 26, kRoomBelow = 14;
constexpr double kLabelHigh = 24, kLetter = 6.6, kLetters = 11;
constexpr double kMostScale = 14, kLeastRoom = 34, kLeastSide = 20, kDot = 2.6, kHexagon = 10,
                 kNumber = 21;
constexpr double kLeastBox = 178, kMostBox = 360, kBoxHigh = 60, kApart = 8;
constexpr std::size_t kMostNamed = 24;  // letters of a room's name

struct Box {
  std::string name;
  double x = 0, y = 0, width = 0, height = 0;
  std::vector<PartId> parts;
};

struct Band {
  std::string title;
  std::vector<Box> boxes;
  double height = 0;
};

std::string number(double x) { return fmt::format("{:.1f}", x); }

std::string floor_title(int floor) {
  if (floor == 0) return tr("Ground floor");
  return floor > 0 ? say("Floor {}", floor) : say("Floor {} below the ground", -floor);
}

/// No more bytes of a text than that, and no letter cut in two.
std::string begun(const std::string& text, std::size_t bytes) {
  while (bytes < text.size() && (static_cast<unsigned char>(text[bytes]) & 0xC0) == 0x80) --bytes;
  return text.substr(0, bytes);
}

std::vector<PartId> parts_in(const Installation& installation, const std::string& room) {
  std::vector<PartId> parts;
  for (PartId id = 0; id < installation.parts.size(); ++id) {
    if (installation.parts[id].room == room) parts.push_back(id);
  }
  return parts;
}

double extent_m(const std::vector<Room>& rooms) {
  double most = 1;
  for (const Room& room : rooms) most = std::max(most, room.x_m + room.width_m);
  return most;
}

/// Of a room that is a point on the plan, or too small for its name, all the same one to be seen.
double side(double length) { return length > 0 ? std::max(length, kLeastSide) : kLeastRoom; }

/// The rooms of one floor as the scene lays them out.
Band floor_band(const Installation& installation, int floor, double scale) {
  Band band;
  band.title = floor_title(floor);
  double least = 1e9;
  for (const Room& room : installation.rooms) {
    if (room.floor == floor) least = std::min(least, room.y_m);
  }
  for (const Room& room : installation.rooms) {
    if (room.floor != floor) continue;
    Box box{words_of_key(room.name),     kMargin + room.x_m * scale,
            (room.y_m - least) * scale,  side(room.width_m * scale),
            side(room.height_m * scale), parts_in(installation, room.name)};
    band.height = std::max(band.height, box.y + box.height);
    band.boxes.push_back(std::move(box));
  }
  return band;
}

/// Boxes side by side for whatever is in no room of the plan.
Band other_band(const Installation& installation) {
  std::set<std::string> planned;
  for (const Room& room : installation.rooms) planned.insert(room.name);
  std::map<std::string, std::vector<PartId>> others;
  for (PartId id = 0; id < installation.parts.size(); ++id) {
    const std::string& room = installation.parts[id].room;
    if (planned.count(room) == 0) others[room].push_back(id);
  }
  Band band;
  band.title = tr("On no plan");
  const auto count = static_cast<double>(std::max<std::size_t>(others.size(), 1));
  const double wide =
      std::clamp((kWide - 2 * kMargin + kApart) / count - kApart, kLeastBox, kMostBox);
  double x = kMargin, y = 0;
  for (auto& [room, parts] : others) {
    if (x + wide > kWide - kMargin) {
      x = kMargin;
      y += kBoxHigh + kApart;
    }
    band.boxes.push_back({room.empty() ? tr("in no room") : words_of_key(room), x, y, wide,
                          kBoxHigh, std::move(parts)});
    band.height = y + kBoxHigh;
    x += wide + kApart;
  }
  return band;
}

std::vector<Band> bands_of(const Installation& installation) {
  std::vector<Band> bands;
  std::set<int> floors;
  for (const Room& room : installation.rooms) floors.insert(room.floor);
  const double scale = std::min(kMostScale, (kWide - 2 * kMargin) / extent_m(installation.rooms));
  for (auto floor = floors.rbegin(); floor != floors.rend(); ++floor)
    bands.push_back(floor_band(installation, *floor, scale));
  if (Band others = other_band(installation); !others.boxes.empty())
    bands.push_back(std::move(others));
  return bands;
}

/// Where the parts of a box stand in it, below its name: in rows.
std::vector<std::pair<double, double>> places_in(const Box& box) {
  constexpr double kName = 13, kSide = 6;
  const double wide = std::max(box.width - 2 * kSide, 4.0);
  const double high = std::max(box.height - kName - kSide, 4.0);
  const auto count = static_cast<double>(std::max<std::size_t>(box.parts.size(), 1));
  const double columns = std::max(1.0, std::ceil(std::sqrt(count * wide / high)));
  const double rows = std::ceil(count / columns);
  std::vector<std::pair<double, double>> places;
  for (std::size_t k = 0; k < box.parts.size(); ++k) {
    const double row = std::floor(static_cast<double>(k) / columns);
    const double column = static_cast<double>(k) - row * columns;
    places.emplace_back(box.x + kSide + wide * (column + 0.5) / columns,
                        box.y + kName + high * (row + 0.5) / rows);
  }
  return places;
}

/// A hexagon that stands on a corner.
std::string hexagon(double x, double y, double radius, bool filled) {
  const double wide = radius * 0.8660254, half = radius / 2;
  return fmt::format("<polygon class=\"{}\" points=\"{},{} {},{} {},{} {},{} {},{} {},{}\"/>",
                     filled ? "lead" : "hex", number(x), number(y - radius), number(x + wide),
                     number(y - half), number(x + wide), number(y + half), number(x),
                     number(y + radius), number(x - wide), number(y + half), number(x - wide),
                     number(y - half));
}

class Drawing {
 public:
  Drawing(const Installation& installation, const std::vector<PlanMark>& marks)
      : installation_(installation) {
    for (const PlanMark& mark : marks) marks_[mark.part].push_back(mark);
  }

  std::string svg() {
    for (const Band& band : bands_of(installation_)) draw(band);
    return fmt::format(
               "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" "
               "font-family=\"sans-serif\" font-size=\"{}\">\n<title>{}</title>\n{}",
               number(kWide), number(y_ + kMargin), number(kLetters),
               escaped(say("Plan of {}", installation_.title)), kStyle) +
           text_ + "</svg>\n";
  }

 private:
  static constexpr const char* kStyle =
      "<style>.room{fill:none;stroke:#777;stroke-width:1}.part{fill:#777}"
      ".ring{fill:#fff;stroke:#000;stroke-width:2}.lead{fill:#000;stroke:#000}"
      ".hex{fill:#fff;stroke:#000;stroke-width:1.4}.way{fill:none;stroke:#000;stroke-width:0.8}"
      ".name{fill:#555;font-size:9px}.title{font-weight:bold}"
      ".words{stroke:#fff;stroke-width:4;paint-order:stroke}</style>\n";

  /// A part with all that it is suspected of.
  struct Marked {
    std::vector<PlanMark> marks;
    double x = 0, y = 0;
    bool operator<(const Marked& other) const {
      return std::tie(x, marks.front().place) < std::tie(other.x, other.marks.front().place);
    }
  };

  void draw(const Band& band) {
    write(kMargin, y_ + 16, band.title, "title");
    y_ += kTitle;
    marked_.clear();
    for (const Box& box : band.boxes) draw(box);
    y_ += band.height + kRoomBelow;
    draw_labels();
  }

  void draw(const Box& box) {
    text_ += fmt::format("<rect class=\"room\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                         number(box.x), number(box.y + y_), number(box.width), number(box.height));
    const auto fits = static_cast<std::size_t>(std::max(box.width / 5.0, 3.0));
    write(box.x + 3, box.y + y_ + 10, begun(box.name, std::min(fits, kMostNamed)), "name");
    const auto places = places_in(box);
    for (std::size_t k = 0; k < box.parts.size(); ++k)
      draw(box.parts[k], places[k].first, places[k].second + y_);
  }

  void draw(PartId part, double x, double y) {
    const auto found = marks_.find(part);
    const bool marked = found != marks_.end();
    text_ += fmt::format(
        "<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"><title>{}</title></circle>\n",
        marked ? "ring" : "part", number(x), number(y), number(marked ? 2 * kDot : kDot),
        escaped(words_of_key(installation_.parts[part].name)));
    if (marked) marked_.push_back({found->second, x, y});
  }

  /// Below their floor, as many to a row as fit, below their parts if there is room, from left to
  /// right: so their lines cross least.
  void draw_labels() {
    if (marked_.empty()) return;
    std::sort(marked_.begin(), marked_.end());
    constexpr double kLeft = kMargin + kHexagon;
    double x = kLeft, y = y_ + kLabelHigh / 2;
    std::string labels;
    for (const Marked& one : marked_) {
      const std::string words = words_of(one);
      const double wide = kNumber * static_cast<double>(one.marks.size()) + 12 +
                          kLetter * static_cast<double>(words.size());
      const double right = kWide - kMargin - wide;
      if (x > right && x > kLeft) {
        x = kLeft;
        y += kLabelHigh;
      }
      x = std::max(x, std::min(one.x, right));
      draw_way(one, x, y);
      labels += label(one, words, x, y);
      x += wide;
    }
    text_ += labels;  // over the lines
    y_ = y + kLabelHigh / 2 + 6;
  }

  std::string words_of(const Marked& one) const {
    std::string words = words_of_key(installation_.parts[one.marks.front().part].name) + ": ";
    for (const PlanMark& mark : one.marks)
      words += fmt::format("{}{:.0f} %", words.back() == ' ' ? "" : ", ", 100 * mark.share);
    return words;
  }

  void draw_way(const Marked& one, double x, double y) {
    text_ += fmt::format("<path class=\"way\" d=\"M{} {} L{} {}\"/>\n", number(one.x),
                         number(one.y + 2 * kDot), number(x), number(y - kHexagon));
  }

  static std::string label(const Marked& one, const std::string& words, double x, double y) {
    std::string text;
    for (const PlanMark& mark : one.marks) {
      const bool leads = mark.place == 1;
      text += hexagon(x, y, kHexagon, leads) +
              fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"middle\" fill=\"{}\">{}</text>\n",
                          number(x), number(y + 4), leads ? "#fff" : "#000", mark.place);
      x += kNumber;
    }
    return text + letters(x - kNumber + 14, y + 4, words, "words");
  }

  static std::string letters(double x, double y, const std::string& words, const char* kind) {
    return fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\">{}</text>\n", kind, number(x),
                       number(y), escaped(words));
  }

  void write(double x, double y, const std::string& words, const char* kind) {
    text_ += letters(x, y, words, kind);
  }

  const Installation& installation_;
  std::map<PartId, std::vector<PlanMark>> marks_;
  std::vector<Marked> marked_;  ///< of the present floor
  std::string text_;
  double y_ = 0;
};

}  // namespace

std::string plan_svg(const Installation& installation, const std::vector<PlanMark>& marks) {
  return Drawing(installation, marks).svg();
}

}  // namespace sixty::diagnose
