#pragma once

#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <thread>

namespace sixty::gui {

/// Does tasks one after the other on a thread of its own. Of those that are given under one number
/// and wait, the last counts.
class Clerk {
 public:
  using Task = std::function<void()>;
  Clerk() : thread_([this] { loop(); }) {}
  /// Ends what is being done first; what waits is not done.
  ~Clerk();
  Clerk(const Clerk&) = delete;
  Clerk& operator=(const Clerk&) = delete;

  void give(int number, Task task);
  /// Whatever waits under that number is not done.
  void drop(int number);
  /// Something waits, or is being done.
  bool is_busy() const;
  /// Until nothing is.
  void wait() const;

 private:
  void loop();
  bool has_work() const { return works_ || !waiting_.empty(); }

  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  std::map<int, Task> waiting_;
  bool works_ = false, ends_ = false;
  std::thread thread_;  // last: it uses all of the others
};

}  // namespace sixty::gui
