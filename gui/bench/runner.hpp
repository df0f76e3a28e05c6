#pragma once

#include <atomic>
#include <condition_variable>
#include <deque>
#include <limits>
#include <memory>
#include <mutex>
#include <thread>

#include "gui/bench/moments.hpp"
#include "gui/sound/captions.hpp"
#include "gui/sound/sound.hpp"
#include "gui/strip/lanes.hpp"
#include "gui/views/view.hpp"

namespace sixty::gui {

/// Runs a session on a thread of its own and draws a new picture as often as somebody takes one:
/// whoever looks never waits for the run.
class Runner {
 public:
  /// `sound`: the same installation without faults, for the twin; nullptr: there will be none.
  /// `actions`: besides the scene's own. `patience_s`: how long to wait until it is there; then it
  /// goes on by itself. Units: s of the wall.
  Runner(const std::shared_ptr<const Installation>& installation, SimTime at,
         std::shared_ptr<const Installation> sound = nullptr,
         const std::vector<Action>& actions = {},
         double patience_s = std::numeric_limits<double>::infinity());
  ~Runner();
  Runner(const Runner&) = delete;
  Runner& operator=(const Runner&) = delete;

  /// Seconds of the scene to one of the wall. Range: > 0.
  void set_speed(double speed);
  void set_running(bool running);
  /// A long way is seen as it goes, and ended by whatever is asked for next.
  void jump(SimTime to);
  /// Ends it where it is.
  void halt();
  /// To an instant of a run with these actions alone, in order of time. Returns the number by which
  /// pictures of that run tell themselves from earlier ones.
  std::uint64_t begin(std::vector<Action> log, SimTime at);
  /// To the next instant at which something happens, or to the one before.
  void step(bool forward);
  /// To where something worth a look begins next, or began before.
  void step_to_moment(bool forward);
  /// Time runs fast through quiet and slows by itself round what happens, so that a minute in which
  /// anything does takes about ten seconds; the speed asked for does not matter then.
  void set_stretch(bool on);
  /// A sound installation, left alone, runs beside it and comes with the pictures. Order: there is
  /// one.
  void set_twin(bool on);
  /// Readings of this part come with the pictures.
  void watch(PartId part);
  /// So do those of these lanes.
  void set_lanes(std::vector<LaneOf> lanes);
  /// What is heard of the run from now on goes there.
  void play_on(std::shared_ptr<Sound> player);
  /// It is also written, whether or not anybody could hear it.
  void write_captions(bool on);
  std::vector<std::string> captions(double now_s) { return captions_.lines(now_s); }
  /// What a hand does, or a fault that comes or goes, now.
  void act(Action action);
  /// Goes back to just before the last of these, as if it had not been done.
  void undo();

  struct Seen {
    std::shared_ptr<const Picture> picture;
    bool running = false;
    double speed = 1;
    bool behind = false;  ///< it cannot keep the asked speed
    std::string failure;  ///< why the run cannot go on; empty: it can
    bool stretch = false, twin = false;
    SimTime reach = 0;  ///< so far it has run since the last action; beyond nothing is known
    /// All actions, in order of time; another object as soon as one is.
    std::shared_ptr<const std::vector<Action>> log;
    std::size_t can_undo = 0;  ///< how many
    double took_ms = 0;        ///< what the simulator did for the latest picture
    std::optional<SimTime> heads_for = std::nullopt;  ///< it is on a long way to there
  };
  /// The latest picture, at once.
  Seen see();
  /// The first picture that shows everything asked for so far.
  Seen see_all();

 private:
  struct Ask {
    enum class What {
      kJump,
      kForward,
      kBack,
      kNextMoment,
      kLastMoment,
      kAct,
      kUndo,
      kLook,
      kHalt,
      kBegin
    };
    What what = What::kJump;
    SimTime to = 0;
    Action action;
    std::vector<Action> log = {};
  };
  void loop();
  void do_asked(const Ask& ask);
  void go_to(SimTime to);
  bool is_called_off();
  bool go_on(double wall_s, double speed);
  bool run_until(SimTime until, double speed, double lasts_s, const Session::StopHere& stop_here);
  void do_action(Action action);
  void undo_action();
  void begin_with(const Ask& ask);
  void take_log(SimTime reach);
  Seen seen() const;
  void step_back();
  std::shared_ptr<Sound> player();
  void hush();
  void publish();
  void ask(Ask ask);

  void look_at_twin(Picture& picture, const std::vector<LaneOf>& lanes);

  Session session_;
  Stage stage_;
  std::shared_ptr<const Installation> sound_;
  std::unique_ptr<Session> twin_;  ///< as soon as somebody wants it
  Ear ear_;
  std::shared_ptr<Sound> player_;
  Captions captions_;
  std::atomic<bool> captioned_ = false;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Ask> asked_;
  std::uint64_t asks_ = 0, done_ = 0, begins_ = 0;
  std::uint64_t begun_ = 0;  ///< the run's own thread's
  bool running_ = false, ends_ = false, behind_ = false, stretch_ = false, twins_ = false;
  double speed_ = 1;
  PartId watched_ = 0;
  std::vector<LaneOf> lanes_;
  std::string failure_;
  std::shared_ptr<const Picture> picture_;
  SimTime reach_ = 0;
  double took_ms_ = 0;
  std::optional<SimTime> heads_for_;
  std::shared_ptr<const std::vector<Action>> log_;
  std::vector<Action> made_;    ///< in the order in which they were
  StretchedTime stretch_time_;  ///< the run's own thread's, as is the session
  std::thread thread_;          // last: it uses all of the others
};

}  // namespace sixty::gui
