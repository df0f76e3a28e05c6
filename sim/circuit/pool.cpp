#include "sim/circuit/pool.hpp"

#include <algorithm>

namespace sixty::circuit {
namespace {

/// Room for what is known; it is all forgotten and computed again when the room is used up.
constexpr std::size_t kMostPooled = 128u << 20;

bool reads_the_same(const Stretch& stretch, const Inputs& inputs) {
  return std::all_of(stretch.reads.begin(), stretch.reads.end(), [&](const Read& read) {
    const ContactInput& was = stretch.inputs.contacts[read.contact];
    const ContactInput& is = inputs.contacts[read.contact];
    const bool film = (read.what & Integrator::kFilmRead) != 0;
    const bool speed = (read.what & Integrator::kSpeedRead) != 0;
    return (!film || was.closed_ohm == is.closed_ohm) &&
           (!speed || was.closing_speed_m_per_s == is.closing_speed_m_per_s);
  });
}

std::shared_ptr<const Stretch> found_in(
    const std::vector<std::shared_ptr<const Stretch>>& stretches, const Pool::Beginning& from) {
  for (const auto& stretch : stretches) {
    if (reads_the_same(*stretch, from.inputs) && stretch->start->same(from.start)) return stretch;
  }
  return nullptr;
}

}  // namespace

std::shared_ptr<Pool::Known> Pool::known(const Beginning& from) {
  if (bytes_ > kMostPooled) {
    known_.clear();  // who still waits for one holds it
    bytes_ = 0;
  }
  const std::uint64_t key =
      mix(mix(from.network.hash(), from.start.hash()), from.inputs.commands_hash());
  std::shared_ptr<Known>& known = known_[key];
  if (known == nullptr) known = std::make_shared<Known>();
  return known;
}

std::shared_ptr<const Stretch> Pool::compute_for(Known& known, const Compute& compute,
                                                 std::unique_lock<std::mutex>& lock) {
  struct Done {
    Known& known;
    Pool& pool;
    std::unique_lock<std::mutex>& lock;
    ~Done() {
      if (!lock.owns_lock()) lock.lock();
      known.at_it = false;
      pool.done_.notify_all();
    }
  };
  known.at_it = true;
  const Done done{known, *this, lock};
  lock.unlock();
  std::shared_ptr<const Stretch> made = compute();
  lock.lock();
  known.stretches.push_back(made);
  bytes_ += bytes_of(*made) + bytes_of(*made->start) + bytes_of(*made->end);
  return made;
}

std::shared_ptr<const Stretch> Pool::find(const Beginning& from, const Compute& compute,
                                          const Meanwhile& meanwhile) {
  std::unique_lock lock(mutex_);
  const std::shared_ptr<Known> here = known(from);
  for (bool idles = false;;) {
    if (auto found = found_in(here->stretches, from)) return found;
    if (!here->at_it) return compute_for(*here, compute, lock);
    if (idles) {
      done_.wait(lock, [&] { return !here->at_it; });
      continue;
    }
    lock.unlock();
    idles = !meanwhile();
    lock.lock();
  }
}

std::shared_ptr<const Stretch> Pool::find_if_free(const Beginning& from, const Compute& compute) {
  std::unique_lock lock(mutex_);
  const std::shared_ptr<Known> here = known(from);
  if (auto found = found_in(here->stretches, from)) return found;
  return here->at_it ? nullptr : compute_for(*here, compute, lock);
}

}  // namespace sixty::circuit
