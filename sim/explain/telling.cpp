#include "sim/explain/telling.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {

std::string spoken_condition(const std::string& what) {
  constexpr std::string_view kContact = " contact ";
  const std::size_t at = what.find(kContact);
  const std::string number = at == std::string::npos ? "" : what.substr(at + kContact.size());
  if (number.empty() || !std::all_of(number.begin(), number.end(), is_digit)) return tr(what);
  return say("{} contact {}", what.substr(0, at), number);
}

std::string Telling::meaning(PartId part, std::string_view kind) const {
  return scene_.parts[part].kind->declaration.meaning_of(std::string(kind));
}

std::string Telling::did_not(PartId part, SimTime at, std::string_view kind, bool acted) const {
  const std::string when = when_text(scene_, at), what = meaning(part, kind);
  return acted ? say("{} did not do at {} what it does when sound: {}.", name(part), when, what)
               : say("{} did not do at {} what it does in vain when sound: {}.", name(part), when,
                     what);
}

std::string Telling::did(PartId part, SimTime at, std::string_view kind, bool acted) const {
  const std::string when = when_text(scene_, at), what = meaning(part, kind);
  return acted
             ? say("{} did at {} what it does not when sound: {}.", name(part), when, what)
             : say("{} did in vain at {} what it does not when sound: {}.", name(part), when, what);
}

std::string Telling::ended(PartId part, SimTime at, std::string_view kind) const {
  return say("{} did not go on at {} as in a sound installation: {}.", name(part),
             when_text(scene_, at), meaning(part, kind));
}

std::string Telling::went_on(PartId part, SimTime at, std::string_view kind) const {
  return say("{} did not end at {} as in a sound installation: {}.", name(part),
             when_text(scene_, at), meaning(part, kind));
}

std::string Telling::needed(PartId part, const Kept::Needed& condition) const {
  return say("{}: {} was {:.4g}, and {:.4g} were needed.", name(part),
             spoken_condition(condition.what), condition.measured, condition.needed);
}

std::string Telling::had_to_be_closed(PartId contact, SimTime at, PartId for_part) const {
  return say("{} stood open at {}; for {} it had to be closed.", name(contact),
             when_text(scene_, at), name(for_part));
}

std::string Telling::stood(PartId contact, SimTime at, bool open, PartId what_hangs_on_it) const {
  const std::string when = when_text(scene_, at);
  const std::string& other = name(what_hangs_on_it);
  return open ? say("{} stood open at {}, closed when sound; {} hangs on it.", name(contact), when,
                    other)
              : say("{} stood closed at {}, open when sound; {} hangs on it.", name(contact), when,
                    other);
}

std::string Telling::got_volts(PartId part, double ours_v, double sound_v) const {
  return say("{} got {} at its coil, a sound one {}.", name(part), spoken_quantity(ours_v, "V"),
             spoken_quantity(sound_v, "V"));
}

std::string Telling::needs_volts(PartId part, double ours_v, double sound_v) const {
  return say("{} needs {} to pull in, a sound one {}.", name(part), spoken_quantity(ours_v, "V"),
             spoken_quantity(sound_v, "V"));
}

std::string Telling::lost(const Loss& loss) const {
  const auto [ours, sound] = both_texts(loss.ours_v, loss.sound_v, "V");
  return loss.source ? say("{} gives {}, a sound one {}.", name(loss.part), ours, sound)
                     : say("{} are lost at {}, {} when sound.", ours, name(loss.part), sound);
}

}  // namespace sixty::explain
