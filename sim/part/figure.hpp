#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sixty {

/// A place on a drawing. Units: units of the drawing, x to the right, y down; a part says how many
/// it makes of a millimetre.
struct Point {
  double x = 0, y = 0;
  Point operator+(Point o) const { return {x + o.x, y + o.y}; }
  Point operator-(Point o) const { return {x - o.x, y - o.y}; }
  Point operator*(double k) const { return {x * k, y * k}; }
  bool operator==(const Point&) const = default;
};

/// Where a piece lies and how it is turned. Angles are clockwise as seen.
struct Pose {
  Point at;
  double turn_rad = 0;
  double scale = 1;
  Point of(Point p) const;
  Pose of(const Pose& inner) const;
};

/// The point at a radius and an angle from twelve o'clock, clockwise.
Point polar(double radius, double angle_rad);

/// What a piece is made of; whoever draws it knows what that looks like.
enum class Material : std::uint8_t {
  kBrass,
  kDeepBrass,  ///< brass that lies farther back
  kSteel,
  kBlueSteel,  ///< tempered, as of springs
  kIron,       ///< that leads flux
  kCopper,
  kSilver,
  kInsulation,
  kPaper,
  kInk,
  kIvory,
  kSlate,
  kGlass,
  kHollow,  ///< nothing: one looks through to what is dark behind
  kFlux,    ///< no matter: lines and arrows of a magnetic flux
  kForce,   ///< of a force
  kNote     ///< of a measure
};
constexpr std::size_t kMaterials = static_cast<std::size_t>(Material::kNote) + 1;

/// One piece of a figure.
struct Shape {
  enum class Form : std::uint8_t { kArea, kBand, kLine, kDisc, kText };
  Form form = Form::kArea;
  Material material = Material::kSteel;
  std::uint32_t first = 0,
                count = 0;  ///< of the figure's points; of a band outline, then inner one
  double width = 0;         ///< of a line; radius of a disc; height of letters
  double lift = 0;          ///< above what lies behind it: how far its shadow falls
  double current_a = 0;     ///< that flows through it
  std::uint32_t text = 0;   ///< of the figure's texts
  bool ghost = false;       ///< not there: where it should be
  bool close = false;       ///< to be seen only where the figure is large
};

/// A name with the point that it belongs to.
struct Label {
  std::string text;  ///< empty: the part's own name
  Point at;
  Point words;         ///< where its words stand, to that side of the point
  bool close = false;  ///< to be read only where the figure is large
};

/// A place at which energy is broken.
struct Spark {
  Point at;
  double current_a = 0;
};

/// A place that a hand works.
struct Handle {
  std::string press;    ///< the command that pressing it is
  std::string release;  ///< that letting it go is; empty: none
  double value = 0;     ///< that goes with the pressing, SI
  Point corner, opposite;
};

/// What is plainly not as it should be, in words: "3 min slow".
struct Remark {
  enum class Lean : std::uint8_t { kLow, kHigh, kStill } lean = Lean::kLow;
  std::string text;
  Point at;
  double radius = 0;  ///< of what it is about
};

/// A part as it looks at one moment: geometry without colours, in the order from back to front.
class Figure {
 public:
  /// Empties it. `close`: it will be seen from close by, so that what is shown only there is
  /// wanted.
  void clear(bool close = false);
  bool wants_close() const { return wants_close_; }
  /// What comes next is meant in that pose, within the one that is in force.
  class Within {
   public:
    Within(Figure& figure, const Pose& pose) : figure_(figure), before_(figure.pose_) {
      figure.pose_ = before_.of(pose);
    }
    ~Within() { figure_.pose_ = before_; }
    Within(const Within&) = delete;
    Within& operator=(const Within&) = delete;

   private:
    Figure& figure_;
    Pose before_;
  };

  /// What comes next is to be seen only where the figure is large: what lies behind its face, and
  /// what is measured.
  class Close {
   public:
    explicit Close(Figure& figure) : figure_(figure), before_(figure.close_) {
      figure.close_ = true;
    }
    ~Close() { figure_.close_ = before_; }
    Close(const Close&) = delete;
    Close& operator=(const Close&) = delete;

   private:
    Figure& figure_;
    bool before_;
  };

  /// A polygon that does not cross itself.
  Shape& area(Material material, std::span<const Point> outline, double lift = 0);
  /// What lies between two closed outlines. Range: as many points in both, each beside its like.
  Shape& band(Material material, std::span<const Point> outer, std::span<const Point> inner,
              double lift = 0);
  Shape& line(Material material, std::span<const Point> points, double width, double lift = 0);
  Shape& disc(Material material, Point centre, double radius, double lift = 0);
  /// Letters of that height, centred.
  void text(Material material, Point centre, double height, std::string_view text);
  Shape& box(Material material, Point corner, Point opposite, double lift = 0);
  /// The part's own name, centred below the point.
  void name_at(Point at) { label(at, "", at); }
  /// A name of a piece, with a line from it to the words.
  void label(Point at, std::string_view text, Point words);
  void spark(Point at, double current_a);
  /// Where a wire is joined.
  void terminal(std::string_view name, Point at);
  /// What a hand does within that box. Range: both are commands of the part, or `release` is empty.
  void handle(std::string_view press, std::string_view release, Point corner, Point opposite,
              double value = 0);
  void remark(Remark::Lean lean, std::string_view text, Point at, double radius);
  /// Where the figure of a part stands that takes this link from it.
  void anchor(std::string_view link, const Pose& pose);

  const std::vector<Shape>& shapes() const { return shapes_; }
  std::span<const Point> points(const Shape& shape) const {
    return {points_.data() + shape.first, shape.count};
  }
  const std::string& text_of(const Shape& shape) const { return texts_[shape.text]; }
  const std::vector<Label>& labels() const { return labels_; }
  const std::vector<Spark>& sparks() const { return sparks_; }
  const std::vector<Handle>& handles() const { return handles_; }
  const std::vector<Remark>& remarks() const { return remarks_; }
  const std::map<std::string, Point, std::less<>>& terminals() const { return terminals_; }
  const std::map<std::string, Pose, std::less<>>& anchors() const { return anchors_; }
  /// The smallest upright rectangle about its points, but of those seen only close by: corner and
  /// opposite corner.
  std::pair<Point, Point> bounds() const;
  /// What is to be looked at from close by, where that is not the whole figure.
  void focus(Point corner, Point opposite) { focus_ = {pose_.of(corner), pose_.of(opposite)}; }
  /// Corner and opposite corner of it.
  std::pair<Point, Point> focused() const { return focus_.value_or(bounds()); }

 private:
  Shape& add(Shape::Form form, Material material, double lift);
  void put(Shape& shape, std::span<const Point> points);

  Pose pose_;
  bool close_ = false, wants_close_ = false;
  std::vector<Shape> shapes_;
  std::vector<Point> points_;
  std::vector<std::string> texts_;
  std::vector<Label> labels_;
  std::vector<Spark> sparks_;
  std::vector<Handle> handles_;
  std::vector<Remark> remarks_;
  std::optional<std::pair<Point, Point>> focus_;
  std::map<std::string, Point, std::less<>> terminals_;
  std::map<std::string, Pose, std::less<>> anchors_;
};

}  // namespace sixty
