#include "sim/explain/draws.hpp"

#include <cmath>

#include "sim/explain/way.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {
namespace {

constexpr double kMore = 0.01;  // of what a sound one draws: less may come of a tenth of a volt

}  // namespace

std::optional<Link> greatest_draw(const Session& looked_at, const Session& sound,
                                  const Roots& roots, SimTime at, bool less_too) {
  const Installation& ours = looked_at.build();
  std::optional<Link> found;
  double most_a = 0;
  for (PartId p = 0; p < ours.parts.size(); ++p) {
    const double ours_a = drawn_a(looked_at, ours.parts[p]);
    const double sound_a = drawn_a(sound, sound.build().parts[p]);
    const double more_a = less_too ? std::fabs(ours_a - sound_a) : ours_a - sound_a;
    if (more_a <= kMore * sound_a || more_a <= most_a || !roots.differs(p)) continue;
    most_a = more_a;
    found =
        quantity_link(Link::What::kDraws, at, p, {"current", std::string("A"), ours_a, sound_a});
    const auto [draws, when_sound] = both_texts(ours_a, sound_a, found->unit);
    found->text = say("{} draws {}, a sound one {}.", ours.parts[p].name, draws, when_sound);
  }
  return found;
}

}  // namespace sixty::explain
