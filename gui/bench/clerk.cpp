#include "gui/bench/clerk.hpp"

#include <utility>

#include "gui/strip/behind.hpp"

namespace sixty::gui {

Clerk::~Clerk() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void Clerk::give(int number, Task task) {
  const std::lock_guard lock(mutex_);
  waiting_.insert_or_assign(number, std::move(task));
  changed_.notify_all();
}

void Clerk::drop(int number) {
  const std::lock_guard lock(mutex_);
  waiting_.erase(number);
  changed_.notify_all();
}

bool Clerk::is_busy() const {
  const std::lock_guard lock(mutex_);
  return has_work();
}

void Clerk::wait() const {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [this] { return !has_work(); });
}

void Clerk::loop() {
  stay_behind();
  std::unique_lock lock(mutex_);
  while (!ends_) {
    if (waiting_.empty()) {
      changed_.wait(lock);
      continue;
    }
    const Task task = std::move(waiting_.extract(waiting_.begin()).mapped());
    works_ = true;
    lock.unlock();
    task();
    lock.lock();
    works_ = false;
    changed_.notify_all();
  }
}

}  // namespace sixty::gui
