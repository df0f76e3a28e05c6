#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "sim/part/part.hpp"

namespace sixty {

/// Resistance of a contact at its closings: the narrowing of the current in the metal, and a film
/// drawn anew each time. The film is one of a few equally likely values of a log-normal
/// distribution (the middles of its equal shares), so that equal transients come again and can be
/// reused. How many depends on what the worst hundredth of the closings adds to a circuit of ten
/// ohms and more: less than one part in fifty, as with clean contacts and fingers, and their grid
/// has one value, the median; less than one in twenty, and it has 4; worse films decide what
/// happens, and have 16. Source: film about 15 mohm (5-50): common practice, no source; the numbers
/// of values: own choice.
class ContactFilm {
 public:
  static constexpr std::size_t kCleanLevels = 1;
  static constexpr std::size_t kDullLevels = 4;
  static constexpr std::size_t kDirtyLevels = 16;
  ContactFilm() = default;
  /// `spread`: standard deviation of the film's natural logarithm. Range: median_ohm >= 0.
  ContactFilm(double metal_ohm, double median_ohm, double spread);
  /// Units: ohm, always > 0. Range: 0 <= draw < 1.
  double ohm(double draw) const;

 private:
  std::size_t levels_ = kCleanLevels;
  std::array<double, kDirtyLevels> level_ohm_ = {};
};

/// Declares a contact's own parameters: contact_force, film, film_spread, bounces, contact_mass,
/// restitution, sparks. Later parts of one kind keep to these names.
struct ContactDefaults {
  double force_n = 0.15;
  double film_ohm = 0.015;
  double film_spread = 0.55;
  bool bounces = true;
  bool sparks = true;
};
void declare_contact(Declaration& d, const ContactDefaults& defaults);

/// What the parameters say of bounce and spark, and of the resistance.
circuit::ContactKind contact_kind(const Builder& b);
ContactFilm contact_film(const Builder& b);

/// A contact's faces as they are now; care changes them. Plain, for a part's state.
struct ContactFaces {
  ContactFilm film;
  double force_n = 0;
  double film_ohm = 0, film_spread = 0;  ///< median, and spread of its logarithm
};
ContactFaces contact_faces(const Builder& b);
/// Commands `clean` and `set_force`, in this order.
void declare_contact_care(Declaration& d, double least_force_n, double most_force_n);
constexpr std::uint16_t kContactCare = 2;  ///< commands
/// Does one of them; felt from the next closing on. `care`: 0 or 1, counted from the first.
void tend_contact(std::uint16_t care, double value, int contact, ContactFaces& faces, Ctx& ctx);
/// Film of a cleaned contact, no more than `film_ohm` before. Units: ohm. Source: 5-50 mohm: common
/// practice, no source.
ContactFilm cleaned(double metal_ohm, double film_ohm, double film_spread);

/// Draws the film of the next closing; `draws` counts the draws of the stream. Order: at the start
/// and at each opening, so that the value is there when the contact closes.
void draw_film(Ctx& ctx, int contact, const ContactFilm& film, std::uint32_t stream,
               std::uint64_t& draws);

/// Names of what happens at a contact, for the trace.
void declare_contact_events(Declaration& d);

}  // namespace sixty
