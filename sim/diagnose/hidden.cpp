#include "sim/diagnose/hidden.hpp"

#include "sim/diagnose/once.hpp"

namespace sixty::diagnose {

std::vector<float> noticed_with(const Library& library, const std::vector<Injection>& faults) {
  Session sound(library.installation);
  const std::vector<Usual> usual =
      usual_with({watch(sound, library.signs, library.watch)}, library.usual, library.signs);
  Session ailing(library.installation);
  for (const Injection& fault : faults)
    put_in(ailing, {fault.fault, fault.part}, {fault.severity, 0, fault.course});
  return departures(watch_and_try(ailing, library.signs, usual, library.watch), usual,
                    library.signs);
}

}  // namespace sixty::diagnose
