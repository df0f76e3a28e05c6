#include "sim/diagnose/in_parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace sixty::diagnose {
namespace {

class Crew {
 public:
  Crew(std::size_t count, const std::function<void(std::size_t)>& job) : count_(count), job_(job) {}

  void work() {
    for (std::size_t k = next_++; k < count_; k = next_++) do_one(k);
  }
  void end() const {
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  void do_one(std::size_t k) {
    try {
      job_(k);
    } catch (...) {
      const std::lock_guard lock(failing_);
      if (!failure_) failure_ = std::current_exception();
      next_ = count_;
    }
  }

  std::size_t count_;
  const std::function<void(std::size_t)>& job_;
  std::atomic<std::size_t> next_{0};
  std::mutex failing_;
  std::exception_ptr failure_;
};

}  // namespace

void in_parallel(std::size_t count, std::size_t threads,
                 const std::function<void(std::size_t)>& job) {
  if (threads == 0) threads = std::max(1u, std::thread::hardware_concurrency());
  threads = std::min(threads, std::max<std::size_t>(count, 1));
  Crew crew(count, job);
  std::vector<std::thread> others;
  for (std::size_t k = 1; k < threads; ++k) others.emplace_back([&] { crew.work(); });
  crew.work();
  for (std::thread& other : others) other.join();
  crew.end();
}

}  // namespace sixty::diagnose
