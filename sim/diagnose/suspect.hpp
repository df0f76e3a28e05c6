#pragma once

#include <memory>
#include <vector>

#include "sim/run/session.hpp"
#include "sim/scene/fault.hpp"
#include "sim/scene/injection.hpp"

namespace sixty::diagnose {

/// Something that may be the matter: a fault of one part.
struct Suspect {
  std::shared_ptr<const Fault> fault;
  PartId part = 0;
};

/// One way in which a fault can be there.
struct Manner {
  double severity = 0.5;
  SimTime from = 0;
  Course course;
};

/// Every fault at every part that it can strike, in the order of their numbers and of the parts.
std::vector<Suspect> suspects_of(const Installation& installation, const FaultBook& book);

/// How likely each is before anything is known: faults by how often they come, shared among the
/// parts that it can strike. Adds up to 1.
std::vector<double> prior_of(const std::vector<Suspect>& suspects);

/// Whether more of it is another thing than less of it.
bool has_degrees(const Fault& fault);

/// Ways in which one fault is there: from the start on in one half of them, spread evenly over
/// its severities from `least` on; in the other it begins within the watch, or comes and goes, in
/// turn. `who`: keeps the chances of suspects apart. Range: count > 0. `until`: end of the watch.
std::vector<Manner> manners_of(const Fault& fault, std::size_t count, double least, SimTime until,
                               std::uint64_t seed, std::uint64_t who);
/// One of them by chance. `largest`: severity, above 1 beyond what the fault's sheet says.
Manner drawn_manner(const Fault& fault, SimTime until, std::uint64_t seed, std::uint64_t who,
                    double largest = 1);

/// Whether it is there from the start on, in the fault's own course, and to a degree.
bool is_steady(const Fault& fault, const Manner& manner);

/// Puts it in. Order: the session has not passed `from`.
bool put_in(Session& session, const Suspect& suspect, const Manner& manner);

}  // namespace sixty::diagnose
