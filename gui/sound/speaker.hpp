#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <span>
#include <thread>

namespace sixty::gui {

/// The computer's loudspeaker, if there is one. It is opened beside the program, which never waits
/// for it; where there is none, nothing sounds and nobody complains.
class Speaker {
 public:
  /// Fills the next samples, left and right in turn; called on a thread of the speaker's own.
  using Source = std::function<void(std::span<std::int16_t>)>;
  explicit Speaker(Source source);
  ~Speaker();
  Speaker(const Speaker&) = delete;
  Speaker& operator=(const Speaker&) = delete;

  enum class Is : std::uint8_t { kOpening, kOpen, kMissing };
  Is state() const { return state_; }

 private:
  void open();

  Source source_;
  std::atomic<Is> state_ = Is::kOpening;
  std::atomic<bool> ends_ = false;
  std::thread thread_;  // last: it uses all of the others
};

/// The libraries below the loudspeaker say nothing on standard error from now on. Order: before any
/// of them is used, and before other threads are begun.
void hush_sound_libraries();

}  // namespace sixty::gui
