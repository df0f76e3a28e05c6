#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "sim/part/air.hpp"
#include "sim/part/assumptions.hpp"

namespace sixty {

/// Resistance of a contact at its closings: the narrowing of the current in the metal, and a film
/// drawn anew each time. The film is one of a few equally likely values of a
/// distribution (the middles of its equal shares; by itself a log-normal one), so that equal
/// transients come again and can be reused. How many depends on what the worst hundredth of the
/// closings adds to a circuit of ten ohms and more: less than one part in fifty, as with clean
/// contacts and fingers, and their grid has one value, the median; less than one in twenty, and it
/// has 4; worse films decide what happens, and have 16. Source: film about 15 mohm (5-50): common
/// practice, no source; the numbers of values: own choice.
class ContactFilm {
 public:
  static constexpr std::size_t kCleanLevels = 1;
  static constexpr std::size_t kDullLevels = 4;
  static constexpr std::size_t kDirtyLevels = 16;
  ContactFilm() = default;
  /// `spread`: standard deviation of the film's natural logarithm, were it log-normal. Range:
  /// median_ohm >= 0.
  ContactFilm(double metal_ohm, double median_ohm, double spread,
              FilmLaw::Shape shape = FilmLaw::Shape::kLogNormal);
  /// Units: ohm, always > 0. Range: 0 <= draw < 1. `left`: share of the film that is still there.
  double ohm(double draw, double left = 1) const;

 private:
  std::size_t levels_ = kCleanLevels;
  double metal_ohm_ = 0;
  std::array<double, kDirtyLevels> film_ohm_ = {};
};

/// Film of which a share of the closings has less, over its median. Log-normal: exp(spread z), z
/// the normal quantile. Weibull: (ln(1/(1 - share))/ln 2)^(1/k), k = pi/(sqrt(6) spread). Patchy:
/// exp(spread z/2) in three quarters of the closings, exp(spread (z/2 + 3)) in the worst quarter.
/// Range: 0 < share < 1.
double film_quantile(FilmLaw::Shape shape, double spread, double share);

/// Declares a contact's own parameters: contact_force, film, film_spread, film_doubles, bounces,
/// contact_mass, restitution, sparks, and the air about it. Later parts of one kind keep to these
/// names.
struct ContactDefaults {
  double force_n = 0.15;
  double film_ohm = 0.015;
  double film_spread = 0.55;
  bool bounces = true;
  bool sparks = true;
};
void declare_contact(Declaration& d, const ContactDefaults& defaults);

/// Whether a contact follows what works it. Parameter `stuck`: welded, bent away, burnt off.
enum class Stuck : std::uint8_t { kFree, kOpen, kClosed };
void declare_stuck(Declaration& d);
Stuck stuck_of(const Builder& b);
/// How it stands where it is worked to be closed, or open.
inline bool stands_closed(Stuck stuck, bool worked) {
  return stuck == Stuck::kFree ? worked : stuck == Stuck::kClosed;
}

/// What the parameters say of bounce and spark, and of the resistance.
circuit::ContactKind contact_kind(const Builder& b);

/// A contact's faces as they are now; care and air change them. Plain, for a part's state.
struct ContactFaces {
  ContactFilm film;
  double metal_ohm = 0;
  double force_n = 0;
  double film_ohm = 0, film_spread = 0;  ///< median, and spread of its logarithm, when set right
  double doubles_s = 0;                  ///< exposure in which the median doubles; 0: never
  double exposure_s = 0;                 ///< of the air about it, as last told
  double set_right_s = 0;                ///< exposure at which film_ohm held
  FilmLaw law;
  std::int64_t closings = 0;  ///< with such a film, where working rubs it off
  double worked_ohm = 0;      ///< film_ohm that they were with
};
ContactFaces contact_faces(const Builder& b);
/// The same with another resistance of the metal than the force gives.
ContactFaces contact_faces(const Builder& b, double metal_ohm);
/// Its film becomes that of a clean one, 15 mohm, if it was worse. Source: 5-50 mohm: common
/// practice, no source.
void clean(ContactFaces& faces);
/// Lets the film grow in the air: median = median when set right x 2^(exposure since then over
/// film_doubles). Order: at each change of a link. Returns whether it is another one now. Source:
/// own model of what is common practice: a contact left alone gets worse, faster where it is warm
/// and damp.
bool tarnish(const Surroundings& air, ContactFaces& faces);
/// Commands `clean` and `set_force`, in this order.
void declare_contact_care(Declaration& d, double least_force_n, double most_force_n);
constexpr std::uint16_t kContactCare = 2;  ///< commands
/// Does one of them; felt from the next closing on. `care`: 0 or 1, counted from the first.
void tend_contact(std::uint16_t care, double value, int contact, ContactFaces& faces, Ctx& ctx);

/// Resistance at the next closing, by a draw of chance. Counts the closing: working may rub the
/// film off. Range: 0 <= draw < 1.
double closing_ohm(ContactFaces& faces, double draw);
/// Draws the film of the next closing; `draws` counts the draws of the stream. Order: at the start
/// and at each opening, so that the value is there when the contact closes.
void draw_film(Ctx& ctx, int contact, ContactFaces& faces, std::uint32_t stream,
               std::uint64_t& draws);

/// Names of what happens at a contact, for the trace.
void declare_contact_events(Declaration& d);

}  // namespace sixty
