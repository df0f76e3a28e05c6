#pragma once

#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <thread>

#include "gui/sound/sound.hpp"
#include "gui/views/view.hpp"

namespace sixty::gui {

/// Runs a session on a thread of its own and draws a new picture as often as somebody takes one:
/// whoever looks never waits for the run.
class Runner {
 public:
  Runner(const std::shared_ptr<const Installation>& installation, SimTime at);
  ~Runner();
  Runner(const Runner&) = delete;
  Runner& operator=(const Runner&) = delete;

  /// Seconds of the scene to one of the wall. Range: > 0.
  void set_speed(double speed);
  void set_running(bool running);
  void jump(SimTime to);
  /// To the next instant at which something happens, or to the one before.
  void step(bool forward);
  /// Readings of this part come with the pictures.
  void watch(PartId part);
  /// What is heard of the run from now on goes there.
  void play_on(std::shared_ptr<Sound> sound);
  /// What a hand does, or a fault that comes or goes, now.
  void act(Action action);

  struct Seen {
    std::shared_ptr<const Picture> picture;
    bool running = false;
    double speed = 1;
    bool behind = false;  ///< it cannot keep the asked speed
    std::string failure;  ///< why the run cannot go on; empty: it can
  };
  /// The latest picture, at once.
  Seen see();
  /// The first picture that shows everything asked for so far.
  Seen see_all();

 private:
  struct Ask {
    enum class What { kJump, kForward, kBack, kAct, kLook } what = What::kJump;
    SimTime to = 0;
    Action action;
  };
  void loop();
  void do_asked(const Ask& ask);
  bool go_on(double wall_s, double speed);
  bool run_until(SimTime until, double speed, double lasts_s, const Session::StopHere& stop_here);
  void step_back();
  std::shared_ptr<Sound> sound();
  void hush();
  void publish();
  void ask(Ask ask);

  Session session_;
  Stage stage_;
  Ear ear_;
  std::shared_ptr<Sound> sound_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Ask> asked_;
  std::uint64_t asks_ = 0, done_ = 0;
  bool running_ = false, ends_ = false, behind_ = false;
  double speed_ = 1;
  PartId watched_ = 0;
  std::string failure_;
  std::shared_ptr<const Picture> picture_;
  std::thread thread_;  // last: it uses all of the others
};

}  // namespace sixty::gui
