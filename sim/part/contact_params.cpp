#include "sim/part/contact_params.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/circuit/constriction.hpp"

namespace sixty {
namespace {

constexpr double kLeastOhm = 1e-4;  // no contact is better, and the network needs more than nothing

constexpr double kMostFilm = 1e6;      // ohm; as good as an insulator
constexpr double kCleanOhm = 0.015;    // median film of a contact just cleaned
constexpr double kCleanSpread = 0.55;  // 5-50 mohm

constexpr double kLeastLeft = 0.125;  // of a film, however long it is rubbed (judgement)

constexpr double kFeltFrom = 0.2;     // ohm; a film of less is lost in a circuit of ten
constexpr double kDecidesFrom = 0.5;  // ohm; a film of less changes no outcome

std::size_t levels_of(double worst_ohm) {
  if (worst_ohm < kFeltFrom) return ContactFilm::kCleanLevels;
  return worst_ohm < kDecidesFrom ? ContactFilm::kDullLevels : ContactFilm::kDirtyLevels;
}

double median_ohm(const ContactFaces& f) {
  if (f.doubles_s == 0) return f.film_ohm;
  const double doublings = (f.exposure_s - f.set_right_s) / f.doubles_s;
  return std::min(f.film_ohm * det_pow(2, doublings), kMostFilm);
}

/// What working has left of the film.
double left_of_film(const ContactFaces& f) {
  double left = 1;
  for (std::int64_t half = f.law.rubs_off_after, times = 1; half > 0 && left > kLeastLeft;
       ++times) {
    if (f.closings < half * ((std::int64_t{1} << times) - 1)) break;
    left /= 2;
  }
  return left;
}

ContactFilm film_of(const ContactFaces& f) {
  return {f.metal_ohm, median_ohm(f), f.film_spread, f.law.shape};
}

}  // namespace

double film_quantile(FilmLaw::Shape shape, double spread, double share) {
  constexpr double kWorseFrom = 0.75, kWorse = 3;
  switch (shape) {
    case FilmLaw::Shape::kWeibull:
      return det_pow(det_log(1 - share) / det_log(0.5), std::sqrt(6.0) / kPi * spread);
    case FilmLaw::Shape::kPatchy:
      return det_exp(spread * (normal_quantile(share) / 2 + (share > kWorseFrom ? kWorse : 0)));
    default:
      return det_exp(spread * normal_quantile(share));
  }
}

ContactFilm::ContactFilm(double metal_ohm, double median_ohm, double spread, FilmLaw::Shape shape)
    : metal_ohm_(metal_ohm) {
  levels_ = levels_of(median_ohm * film_quantile(shape, spread, 0.99));
  for (std::size_t i = 0; i < levels_; ++i) {
    const double share = (static_cast<double>(i) + 0.5) / static_cast<double>(levels_);
    film_ohm_[i] = median_ohm * film_quantile(shape, spread, share);
  }
}

double ContactFilm::ohm(double draw, double left) const {
  const auto level = static_cast<std::size_t>(draw * static_cast<double>(levels_));
  const double ohm = metal_ohm_ + left * film_ohm_[level < levels_ ? level : levels_ - 1];
  return ohm > kLeastOhm ? ohm : kLeastOhm;
}

void declare_contact(Declaration& d, const ContactDefaults& defaults) {
  d.quantity("contact_force", "N", defaults.force_n, 0.005, 10,
             "force that presses the closed contact together");
  d.quantity("film", "ohm", defaults.film_ohm, 0, 1e6,
             "median resistance of the film on the contact; each closing has its own");
  d.quantity("film_spread", "1", defaults.film_spread, 0, 3,
             "spread of the film: standard deviation of its natural logarithm");
  d.quantity("film_doubles", "s", 0, 0, 1e10,
             "how long the film takes to double in air of 20 degC and 50 % humidity; 0: never");
  declare_air(d);
  d.flag("bounces", defaults.bounces, "whether the contact flies back when it closes");
  d.quantity("contact_mass", "kg", 0.0008, 1e-6, 0.1, "moving mass of the contact's blade");
  d.quantity("restitution", "1", 0.4, 0, 0.9, "share of the speed that an impact gives back");
  d.flag("sparks", defaults.sparks, "whether an opening contact draws an arc or a glow");
}

void declare_stuck(Declaration& d) {
  d.choice("stuck", {"free", "open", "closed"},
           "whether it follows what works it, or never closes, or never opens");
}

Stuck stuck_of(const Builder& b) { return static_cast<Stuck>(b.number("stuck")); }

circuit::ContactKind contact_kind(const Builder& b) {
  circuit::ContactKind kind;
  kind.bounces = b.flag("bounces");
  kind.moving_mass_kg = b.number("contact_mass");
  kind.force_n = b.number("contact_force");
  kind.restitution = b.number("restitution");
  kind.sparks = b.flag("sparks");
  return kind;
}

ContactFaces contact_faces(const Builder& b) {
  return contact_faces(
      b, circuit::constriction_ohm(circuit::ContactMetal{}, b.number("contact_force")));
}

ContactFaces contact_faces(const Builder& b, double metal_ohm) {
  ContactFaces faces;
  faces.metal_ohm = metal_ohm;
  faces.force_n = b.number("contact_force");
  faces.film_ohm = b.number("film");
  faces.film_spread = b.number("film_spread");
  faces.doubles_s = b.number("film_doubles");
  faces.law = b.assumptions().film;
  faces.film = film_of(faces);
  return faces;
}

void clean(ContactFaces& faces) {
  faces.film_ohm = std::min(median_ohm(faces), kCleanOhm);
  faces.film_spread = std::min(faces.film_spread, kCleanSpread);
  faces.set_right_s = faces.exposure_s;
  faces.film = film_of(faces);
}

bool tarnish(const Surroundings& air, ContactFaces& faces) {
  if (air.exposure_s == faces.exposure_s) return false;
  faces.exposure_s = air.exposure_s;
  if (faces.doubles_s == 0) return false;
  faces.film = film_of(faces);
  return true;
}

void declare_contact_care(Declaration& d, double least_force_n, double most_force_n) {
  d.command("clean", "cleans the contact: its film is that of a clean one again");
  d.command("set_force", "sets the force that presses the closed contact together",
            quantity_field("force", "N", least_force_n, most_force_n, "of the closed contact"))
      .sets = "contact_force";
}

void tend_contact(std::uint16_t care, double value, int contact, ContactFaces& faces, Ctx& ctx) {
  if (care == 0) {
    clean(faces);
    return;
  }
  faces.force_n = value;
  faces.metal_ohm = circuit::constriction_ohm(circuit::ContactMetal{}, value);
  faces.film = film_of(faces);
  ctx.change_contact(contact).kind.force_n = value;
}

double closing_ohm(ContactFaces& faces, double draw) {
  if (faces.law.rubs_off_after > 0) {
    if (faces.worked_ohm != faces.film_ohm) faces.closings = 0;
    faces.worked_ohm = faces.film_ohm;
    ++faces.closings;
  }
  return faces.film.ohm(draw, left_of_film(faces));
}

void draw_film(Ctx& ctx, int contact, ContactFaces& faces, std::uint32_t stream,
               std::uint64_t& draws) {
  ctx.set_next_ohm(contact, closing_ohm(faces, ctx.draw(stream, draws++)));
}

void declare_contact_events(Declaration& d) {
  const auto motion = [&](circuit::What what, const char* name, const char* help) {
    d.motion(static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(what)), name,
             help);
  };
  motion(circuit::What::kMakes, "makes", "the contact begins to conduct");
  motion(circuit::What::kBreaks, "breaks", "the contact parts");
  motion(circuit::What::kSparkEnds, "spark_ends", "the spark in the opening contact has gone out");
}

}  // namespace sixty
